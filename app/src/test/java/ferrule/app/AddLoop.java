package ferrule.app;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;

/**
 * A program that takes in one table after another with {@code ferrule add}, and says so after each:
 * to be killed in the middle of it. Table 7 holds readings of operator T7; every tenth is a large
 * one.
 */
public final class AddLoop {

  /** Rows of a small table, and of a large one. */
  static final int FEW = 3;

  static final int MANY = 400;

  private AddLoop() {}

  /** How many rows a table has. */
  static int rows(int table) {
    return table % 10 == 0 ? MANY : FEW;
  }

  /**
   * Adds tables for ever, or until a refusal.
   *
   * @param arguments the job file, a folder to write tables in, the number of the first table
   */
  public static void main(String[] arguments) throws Exception {
    Path folder = Path.of(arguments[1]);
    say("ready");
    for (int table = Integer.parseInt(arguments[2]); ; table++) {
      Path file = write(folder, table);
      StringWriter err = new StringWriter();
      Terminal terminal =
          new Terminal(
              new PrintWriter(new StringWriter()), new PrintWriter(err, true), false, Map.of());
      int code = Main.run(new String[] {"add", arguments[0], file.toString()}, terminal);
      if (code != ExitCode.DONE) {
        say("refused " + code + " " + err.toString().strip());
        return;
      }
      say("added " + table);
      Files.delete(file);
    }
  }

  private static Path write(Path folder, int table) throws java.io.IOException {
    StringBuilder text =
        new StringBuilder(
            "link,fibre,direction,wavelength_nm,loss_db,reference,measured_at,operator\n");
    for (int row = 0; row < rows(table); row++) {
      text.append("L01,")
          .append(row % 2 + 1)
          .append(",A-B,1310,0.31,R1,")
          .append(java.time.Instant.parse("2026-10-05T11:00:00Z").plusSeconds(row))
          .append(",T")
          .append(table)
          .append('\n');
    }
    return Files.writeString(folder.resolve("t" + table + "-readings.csv"), text);
  }

  private static void say(String line) {
    System.out.println(line);
    System.out.flush();
  }
}
