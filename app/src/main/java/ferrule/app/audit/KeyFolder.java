package ferrule.app.audit;

import ferrule.app.BadInputException;
import ferrule.record.seal.KeyFileException;
import ferrule.record.seal.KeyFiles;
import ferrule.record.seal.RecordKey;
import java.io.Console;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Where the user's own key lies, and how a key that the user names is read. */
public final class KeyFolder {

  /** Names the folder of the user's key, if it is not the usual one. */
  public static final String FOLDER_VARIABLE = "FERRULE_KEYS";

  /** Holds the password of a PKCS#12 file; a command line is no place for one. */
  public static final String PASSWORD_VARIABLE = "FERRULE_KEY_PASSWORD";

  private static final String FILE = "record-key.pem";

  private KeyFolder() {}

  /** The file of the user's own key, whether or not it is there. */
  public static Path file(Map<String, String> environment) {
    String named = environment.getOrDefault(FOLDER_VARIABLE, "");
    if (!named.isBlank()) {
      return Path.of(named, FILE);
    }
    String roaming = environment.getOrDefault("APPDATA", "");
    if (!roaming.isBlank()) {
      return Path.of(roaming, "ferrule", FILE);
    }
    String settings = environment.getOrDefault("XDG_CONFIG_HOME", "");
    Path base =
        settings.isBlank()
            ? Path.of(System.getProperty("user.home"), ".config")
            : Path.of(settings);
    return base.resolve("ferrule").resolve(FILE);
  }

  /**
   * The user's own key, made on first use.
   *
   * @throws BadInputException if it cannot be read or made
   */
  public static RecordKey own(Map<String, String> environment) throws BadInputException {
    try {
      return KeyFiles.loadOrMake(file(environment), new SecureRandom());
    } catch (KeyFileException e) {
      throw new BadInputException(e.problem());
    }
  }

  /**
   * The key of a file that the user names.
   *
   * @param file PEM (PKCS#8) or PKCS#12
   * @throws BadInputException if it cannot be used
   */
  public static RecordKey named(Path file, Map<String, String> environment)
      throws BadInputException {
    try {
      return KeyFiles.load(file, () -> password(file, environment, System.console()));
    } catch (KeyFileException e) {
      throw new BadInputException(e.problem());
    }
  }

  private static char[] password(
      Path file, Map<String, String> environment, @Nullable Console console) {
    String set = environment.get(PASSWORD_VARIABLE);
    if (set != null) {
      return set.toCharArray();
    }
    char[] typed = console == null ? null : console.readPassword("Password of %s: ", file);
    return typed == null ? new char[0] : typed;
  }
}
