package ferrule.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import ferrule.core.zero.Reading;
import ferrule.store.job.FileCheck;
import ferrule.store.job.JobFile;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * {@code ferrule add} killed at random moments, on a disk with room and on one without; and copies
 * taken while it writes. More kills than the few of every build: {@code -Dferrule.kills=500}. What
 * must hold is common practice for durable storage, no source.
 */
class AddKillTest {

  private static final int KILLS = Integer.getInteger("ferrule.kills", 20);
  private static final int KILLS_OF_A_FILE = 25;
  private static final int MOST_TABLES = 6;
  private static final int LONGEST_LIFE_MS = 700;

  private final SplittableRandom random = new SplittableRandom(Long.getLong("ferrule.seed", 1912));
  @TempDir private Path temp = Path.of("");
  private Path job = Path.of("");
  private volatile int acknowledged;
  private int unsaid;
  private final List<String> refused = new CopyOnWriteArrayList<>();

  @BeforeEach
  void makeAJob() {
    job = temp.resolve("site.ferrule");
    make(job);
  }

  private static void make(Path path) {
    String library = Ran.ROOT.resolve("examples/library").toString();
    assertThat(Ran.here("new", path.toString(), "--from", library).code()).isZero();
  }

  /** A child that adds, and what it has said so far. */
  private final class Child implements AutoCloseable {
    private final Process process;
    private final Thread listener;

    Child(String... before) throws IOException {
      List<String> command = new ArrayList<>(List.of(before));
      command.addAll(
          List.of(
              Path.of(System.getProperty("java.home"), "bin", "java").toString(),
              "-Xmx256m",
              "-XX:+UseSerialGC",
              "-XX:TieredStopAtLevel=1",
              "-XX:-UsePerfData",
              "-cp",
              System.getProperty("java.class.path"),
              AddLoop.class.getName(),
              job.toString(),
              temp.toString(),
              Integer.toString(acknowledged + 1)));
      process = new ProcessBuilder(command).redirectErrorStream(true).start();
      BufferedReader said =
          new BufferedReader(
              new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8));
      String line = said.readLine();
      while (line != null && !line.equals("ready")) {
        line = said.readLine();
      }
      assertThat(line).isEqualTo("ready");
      listener = new Thread(() -> said.lines().forEach(this::hear));
      listener.start();
    }

    private void hear(String line) {
      if (line.startsWith("added ")) {
        acknowledged = Integer.parseInt(line.substring("added ".length()));
      } else if (line.startsWith("refused ")) {
        refused.add(line);
      }
    }

    long pid() {
      return process.pid();
    }

    void end() throws InterruptedException {
      process.waitFor();
      listener.join();
    }

    @Override
    public void close() throws InterruptedException {
      process.destroyForcibly();
      end();
    }
  }

  /**
   * Every table that was acknowledged is in the file, whole; so is one more, or nothing of it.
   * SQLite finds no fault, and the chain is whole.
   */
  private void assertNothingLost(Path path, int atLeast, int atMost) throws Exception {
    try (JobFile file = JobFile.open(path, Clock.systemUTC(), new Random(1))) {
      FileCheck check = file.check();
      TreeMap<Integer, Integer> rows = new TreeMap<>();
      for (Reading reading : file.load().job().readings()) {
        if (reading.operator().startsWith("T")) {
          rows.merge(Integer.parseInt(reading.operator().substring(1)), 1, Integer::sum);
        }
      }
      int last = rows.isEmpty() ? 0 : rows.lastKey();
      assertThat(last).isBetween(atLeast, atMost);
      assertThat(rows).hasSize(last);
      rows.forEach(
          (table, count) -> assertThat(count).as("T" + table).isEqualTo(AddLoop.rows(table)));
      assertThat(check.head()).isEqualTo(file.load().head());
      if (path.equals(job) && last > acknowledged) {
        // Stored, and killed before it could say so.
        unsaid++;
        acknowledged = last;
      }
    }
  }

  @Test
  void whatWasAcknowledgedIsThereAfterEveryKillAndTheFileIsWhole() throws Exception {
    int added = 0;
    for (int kill = 0; kill < KILLS; kill++) {
      if (kill > 0 && kill % KILLS_OF_A_FILE == 0) {
        added += acknowledged;
        acknowledged = 0;
        job = temp.resolve("site" + kill + ".ferrule");
        make(job);
      }
      // Early in the life of the process now and then; mostly some tables later, at any moment.
      int alive = kill % 8 == 0 ? 0 : 1 + random.nextInt(MOST_TABLES);
      int until = acknowledged + alive;
      try (Child child = new Child()) {
        while (alive > 0 && acknowledged < until && refused.isEmpty()) {
          Thread.sleep(1);
        }
        Thread.sleep(random.nextInt(alive == 0 ? LONGEST_LIFE_MS : 25), random.nextInt(1_000_000));
        assertThat(child.pid()).isPositive();
      }
      assertNothingLost(job, acknowledged, acknowledged + 1);
      assertThat(refused).isEmpty();
    }
    added += acknowledged;
    assertThat(added).isGreaterThan(KILLS);
    System.out.println(
        KILLS + " kills, " + added + " tables taken in, " + unsaid + " of them unsaid, none lost");
  }

  private static boolean runs(String... command) throws IOException, InterruptedException {
    try {
      return new ProcessBuilder(command).inheritIO().start().waitFor() == 0;
    } catch (IOException e) {
      return false;
    }
  }

  /** Adds and kills until the disk is full, and then some more. */
  private void fill(String... before) throws Exception {
    int rounds = 0;
    while (refused.size() < 3 && rounds++ < 40) {
      try (Child child = new Child(before)) {
        if (refused.isEmpty() && random.nextInt(3) == 0) {
          Thread.sleep(random.nextInt(LONGEST_LIFE_MS));
        } else {
          child.end();
        }
      }
      assertNothingLost(job, acknowledged, acknowledged + 1);
    }
    assertThat(refused).hasSize(3);
  }

  @Test
  void aDiskThatFillsUpLosesNothing() throws Exception {
    Path disk = Files.createDirectories(temp.resolve("disk"));
    assumeTrue(
        runs("mount", "-t", "tmpfs", "-o", "size=1m", "tmpfs", disk.toString()),
        "a small disk cannot be mounted here");
    try {
      job = Files.copy(job, disk.resolve("site.ferrule"));
      fill();
      assertThat(refused)
          .allSatisfy(
              line ->
                  assertThat(line)
                      .startsWith("refused 2 " + job + ": expected space on the disk; found a full")
                      .endsWith("make room and try again; nothing was changed"));
      assertThat(runs("mount", "-o", "remount,size=30m", disk.toString())).isTrue();
      refused.clear();
      int before = acknowledged;
      try (Child child = new Child()) {
        Thread.sleep(2_000);
        assertThat(child.pid()).isPositive();
      }
      assertThat(refused).isEmpty();
      assertThat(acknowledged).isGreaterThan(before);
      assertNothingLost(job, acknowledged, acknowledged + 1);
    } finally {
      runs("umount", disk.toString());
    }
  }

  /** Needs no rights: files of a process may grow to some size only. */
  @Test
  void filesThatMayNotGrowLoseNothing() throws Exception {
    assumeTrue(Files.isExecutable(Path.of("/bin/sh")), "no shell here");
    fill("/bin/sh", "-c", "ulimit -f 900; exec \"$@\"", "sh");
    assertThat(refused)
        .allSatisfy(line -> assertThat(line).startsWith("refused 2 " + job + ": expected "));
    refused.clear();
    try (Child child = new Child()) {
      Thread.sleep(1_500);
      assertThat(child.pid()).isPositive();
    }
    assertThat(refused).isEmpty();
    assertNothingLost(job, acknowledged, acknowledged + 1);
  }

  @Test
  void aBackupTakenAtAnyInstantOpensCleanWithAllThatWasAcknowledged() throws Exception {
    try (Child child = new Child()) {
      for (int i = 0; i < 8; i++) {
        Thread.sleep(random.nextInt(200));
        int before = acknowledged;
        Path copy = temp.resolve("backup" + i);
        Ran ran = Ran.here("backup", job.toString(), copy.toString());
        assertThat(ran.err()).isEmpty();
        assertThat(ran.out()).startsWith(copy + " holds ").contains("and is whole; head ");
        assertNothingLost(copy, before, Integer.MAX_VALUE);
      }
      assertThat(child.pid()).isPositive();
    }
    try (Stream<Path> files = Files.list(temp)) {
      assertThat(files.map(p -> String.valueOf(p.getFileName()))).noneMatch(n -> n.startsWith("."));
    }
  }

  @Test
  void copiesOfTheFilesAtOneInstantOpenCleanAndOthersAreWholeOrRefused() throws Exception {
    int whole = 0;
    int torn = 0;
    try (Child child = new Child()) {
      for (int i = 0; i < 12; i++) {
        Thread.sleep(random.nextInt(200));
        boolean atOnce = i % 2 == 0;
        if (atOnce) {
          assumeTrue(runs("kill", "-STOP", Long.toString(child.pid())), "no kill here");
        }
        int before = acknowledged;
        Path copy = temp.resolve("copy" + i);
        try {
          copy(copy);
        } finally {
          if (atOnce) {
            runs("kill", "-CONT", Long.toString(child.pid()));
          }
        }
        if (atOnce) {
          assertNothingLost(copy, before, Integer.MAX_VALUE);
        } else {
          Ran ran = Ran.here("history", copy.toString(), "--check");
          assertThat(ran.code()).isIn(ExitCode.DONE, ExitCode.BAD_INPUT);
          whole += ran.code() == ExitCode.DONE ? 1 : 0;
          torn += ran.code() == ExitCode.DONE ? 0 : 1;
          assertThat(ran.err().lines().count()).isEqualTo(ran.code() == ExitCode.DONE ? 0 : 1);
        }
      }
    }
    System.out.println("plain copies under way: " + whole + " whole, " + torn + " refused");
  }

  /** Copies the file, its log and the log's index, as somebody would who copies a folder. */
  private void copy(Path to) throws IOException {
    for (String ending : List.of("", "-wal", "-shm")) {
      Path from = Path.of(job + ending);
      try {
        Files.copy(from, Path.of(to + ending));
      } catch (java.nio.file.NoSuchFileException e) {
        // The log is there only while somebody writes.
      }
    }
  }
}
