package ferrule.core.plan;

import ferrule.core.plant.Link;
import ferrule.core.plant.LinkEnd;

/**
 * How long a crew of two, one at each end, is busy with a link.
 *
 * <p>For each direction each pair of fibres is moved, plugged and read; before that each technician
 * looks at the faces at one end. The figures are those of {@link Practice}; with the usual ones a
 * duplex link takes 0.75 min (no inspection, one direction), 1.5 (both), 1.7 (inspected, one) and
 * 3.0 (inspected, both), where the trade reckons 0.8, 1.6, 1.8 and 2.9 (worked out from common
 * practice, no source).
 */
public sealed interface Pace {

  /** Minutes of the crew for one link. */
  Range minutes(Link link, Choice choice);

  /** Where it comes from, for a reader. */
  String origin();

  /** The figures of practice. */
  Pace USUAL = new Usual();

  /** The figures of practice as they are. */
  record Usual() implements Pace {

    @Override
    public Range minutes(Link link, Choice choice) {
      Range test = test(link).times(choice.passes());
      if (!choice.inspection()) {
        return test;
      }
      Range inspected = test.plus(look(link).times(1 + choice.passes()).times(0.5));
      return choice.pictures() ? inspected.plus(pictures(link)) : inspected;
    }

    @Override
    public String origin() {
      return "figures of practice: common practice, no source";
    }

    private static Range test(Link link) {
      boolean arrayA = link.a().connector().isArray();
      boolean arrayB = link.b().connector().isArray();
      if (arrayA && arrayB) {
        return Practice.ARRAY_TEST.minutes().times(FaceCount.rows(link));
      }
      if (arrayA || arrayB) {
        return Practice.FAN_OUT_TEST.minutes().times(FaceCount.rows(link));
      }
      int pairs = (link.fibres() + 1) / 2;
      return Practice.MOVE_AND_PLUG.minutes().plus(Practice.MEASURE.minutes()).times(pairs);
    }

    /** One look at as many faces as the link has at both ends, by one person. */
    private static Range look(Link link) {
      return look(link, link.a()).plus(look(link, link.b()));
    }

    private static Range look(Link link, LinkEnd end) {
      int looks = FaceCount.looks(link, end);
      return end.connector().isArray()
          ? Practice.ARRAY_FERRULE.minutes().times(looks)
          : face().times(looks);
    }

    private static Range face() {
      Range dirty = Practice.DIRTY_SHARE.range();
      Range clean = new Range(1 - dirty.high(), 1 - dirty.usual(), 1 - dirty.low());
      Range cleanFace = Practice.CLEAN_FACE.minutes();
      Range dirtyFace = Practice.DIRTY_FACE.minutes();
      return new Range(
          clean.high() * cleanFace.low() + dirty.low() * dirtyFace.low(),
          clean.usual() * cleanFace.usual() + dirty.usual() * dirtyFace.usual(),
          clean.low() * cleanFace.high() + dirty.high() * dirtyFace.high());
    }

    private static Range pictures(Link link) {
      int looks = FaceCount.looks(link, link.a()) + FaceCount.looks(link, link.b());
      return Practice.KEEP_PICTURE.minutes().times(looks / 2.0);
    }
  }

  /**
   * The pace at which this very job has gone so far, against the figures of practice.
   *
   * @param ratio minutes taken over minutes reckoned, above 0: of the zero under which the crew was
   *     quickest, of all, of the one under which it was slowest
   * @param zeros under how many zeros it was observed
   * @param links over how many links
   */
  record Observed(Range ratio, int zeros, int links) implements Pace {

    @Override
    public Range minutes(Link link, Choice choice) {
      Range usual = USUAL.minutes(link, choice);
      if (zeros == 1) {
        // Nothing has shown yet how far one zero's pace differs from another's.
        return usual.times(ratio);
      }
      return ratio.times(usual.usual());
    }

    @Override
    public String origin() {
      return "the job's own pace over "
          + links
          + " links under "
          + zeros
          + (zeros == 1 ? " zero" : " zeros");
    }
  }
}
