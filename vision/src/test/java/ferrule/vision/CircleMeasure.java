package ferrule.vision;

import ferrule.vision.scene.Scene;
import ferrule.vision.scene.Scenes;

/** Prints each scene whose circle is off by half a pixel or more; dirt over the edge on a third. */
final class CircleMeasure {
  private CircleMeasure() {}

  /** Takes the number of scenes. */
  public static void main(String[] args) {
    int bad = 0;
    int n = Integer.parseInt(args[0]);
    for (int i = 0; i < n; i++) {
      Scene s = Scenes.clean(i);
      if (i % 3 == 2) {
        Scenes.dirtOnTheEdge(s);
      }
      String said = CladdingFinderTest.complaint(s);
      if (!said.isEmpty()) {
        bad++;
        System.out.println(i + " " + s.width + " " + said);
      }
    }
    System.out.println(bad + " of " + n + " off");
  }
}
