package ferrule.app;

import picocli.CommandLine.IVersionProvider;

/** The version of this Ferrule, from its jar. */
public final class Version implements IVersionProvider {

  /** "0.1.0"; "development" when not run from a jar. */
  public static String number() {
    String version = Version.class.getPackage().getImplementationVersion();
    return version == null ? "development" : version;
  }

  @Override
  public String[] getVersion() {
    return new String[] {"ferrule " + number()};
  }
}
