package ferrule.core.badhouse.optics;

import java.io.File;
import java.io.IOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Timestamp;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Random;
import java.util.UUID;
import java.util.concurrent.ThreadLocalRandom;
import java.util.logging.Logger;

/** Wrong on purpose: everything that core must not do, one method each. */
public final class Impure {
  private Impure() {}

  static boolean file() {
    return new File("x").exists();
  }

  static String path() throws IOException {
    return Files.readString(Path.of("x"));
  }

  static long sql() {
    return new Timestamp(0).getTime();
  }

  static String net() {
    return URI.create("x").toString();
  }

  static Clock clock() {
    return Clock.systemUTC();
  }

  static Instant now() {
    return Instant.now();
  }

  static LocalDate today() {
    return LocalDate.now(ZoneOffset.UTC);
  }

  static long millis() {
    return System.currentTimeMillis();
  }

  static long nanos() {
    return System.nanoTime();
  }

  static int random() {
    return new Random(1).nextInt();
  }

  static int threadLocalRandom() {
    return ThreadLocalRandom.current().nextInt();
  }

  static double mathRandom() {
    return Math.random();
  }

  static String uuid() {
    return UUID.randomUUID().toString();
  }

  static void log() {
    Logger.getLogger("x").info("x");
  }

  static void print() {
    System.out.println("x");
  }

  static boolean resource() {
    return Impure.class.getResourceAsStream("x") == null;
  }

  static String environment() {
    return System.getProperty("x", "");
  }
}
