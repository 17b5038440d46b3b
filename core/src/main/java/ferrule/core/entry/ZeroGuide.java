package ferrule.core.entry;

import ferrule.core.zero.Method;
import java.util.ArrayList;
import java.util.List;

/**
 * How a zero is set and verified, step by step, by its method. Common practice, no source, but for
 * what the verification of each method reads ({@link ferrule.core.zero.VerificationWindow}).
 *
 * @param faces end faces to look at before the zero is set, in the order in which they are mated
 * @param facesForVerification those to look at before it is verified
 * @param setting how it is set
 * @param verifying how it is verified
 */
public record ZeroGuide(
    List<String> faces,
    List<String> facesForVerification,
    List<String> setting,
    List<String> verifying) {

  /** Copies the lists. */
  public ZeroGuide {
    faces = List.copyOf(faces);
    facesForVerification = List.copyOf(facesForVerification);
    setting = List.copyOf(setting);
    verifying = List.copyOf(verifying);
  }

  /**
   * The steps for one method.
   *
   * @param method how many cords stand in line
   * @param launch name of the launch cord
   * @param receive name of the receive cord
   * @param third name of the third cord; only where the method uses one
   */
  public static ZeroGuide of(Method method, String launch, String receive, String third) {
    String l = "launch cord " + launch;
    String r = "receive cord " + receive;
    String x = "third cord " + third;
    List<String> setting = new ArrayList<>();
    setting.add(
        "Let source and meter warm up: 5 to 10 minutes at room temperature, 15 to 30 after a cold"
            + " van.");
    setting.add("Connect " + l + " to the source, and leave it there until the zero is over.");
    return switch (method) {
      case ONE_CORD -> {
        setting.add("Connect its other end to the meter.");
        yield new ZeroGuide(
            ends(l),
            ends(r),
            finished(setting),
            List.of(
                "Take " + l + " off the meter, never off the source.",
                "Connect " + r + " to the meter, and mate the two cords through an adapter.",
                "Read the loss."));
      }
      case TWO_CORD -> {
        setting.add("Connect " + r + " to the meter, and mate the two cords through an adapter.");
        yield new ZeroGuide(
            both(ends(l), ends(r)),
            ends(x),
            finished(setting),
            List.of(
                "Open the adapter and put " + x + " between the two cords with a second adapter.",
                "Read the loss."));
      }
      case THREE_CORD -> {
        setting.add(
            "Connect "
                + r
                + " to the meter, and put "
                + x
                + " between the two cords with two adapters.");
        yield new ZeroGuide(
            both(both(ends(l), ends(x)), ends(r)),
            List.of(),
            finished(setting),
            List.of(
                "Take " + x + " out and mate the two cords through one adapter.",
                "Read the loss."));
      }
    };
  }

  private static List<String> ends(String cord) {
    return List.of(cord + ", one end", cord + ", other end");
  }

  private static List<String> both(List<String> first, List<String> second) {
    List<String> all = new ArrayList<>(first);
    all.addAll(second);
    return all;
  }

  private static List<String> finished(List<String> setting) {
    setting.add("Set the meter to the wavelength and wait until the number stands still.");
    setting.add("Type the level that it shows, then store it in the meter as its zero.");
    return setting;
  }
}
