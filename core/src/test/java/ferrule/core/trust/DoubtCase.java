package ferrule.core.trust;

import ferrule.core.fixture.JobFixture;
import ferrule.core.job.Job;
import ferrule.core.zero.Reading;
import java.util.EnumSet;
import java.util.Set;
import java.util.function.Predicate;

/**
 * A job in which a doubt rings, all that is to be said of the doubt, and a neighbouring job in
 * which it must not ring.
 *
 * @param kind of the doubt
 * @param name what is wrong
 * @param job in which it rings
 * @param subject of the doubt
 * @param blocking whether it blocks
 * @param reached the readings that it reaches, and no other
 * @param fibres the fibres that it touches, and no other
 * @param times how many doubts of the kind ring
 * @param besides other kinds that ring in the same job, and no other
 * @param neighbour a job in which only {@code besidesInNeighbour} ring
 * @param besidesInNeighbour kinds that ring in the neighbour
 */
record DoubtCase(
    DoubtKind kind,
    String name,
    Job job,
    Subject subject,
    boolean blocking,
    Predicate<Reading> reached,
    Set<String> fibres,
    int times,
    Set<DoubtKind> besides,
    Job neighbour,
    Set<DoubtKind> besidesInNeighbour) {

  static Draft of(DoubtKind kind, String name, JobFixture job) {
    return new Draft(kind, name, job.job());
  }

  /** A case being written. */
  static final class Draft {
    private final DoubtKind kind;
    private final String name;
    private final Job job;
    private Subject subject = Subject.JOB;
    private boolean blocking;
    private Predicate<Reading> reached = r -> false;
    private Set<String> fibres = Set.of();
    private int times = 1;
    private final Set<DoubtKind> besides = EnumSet.noneOf(DoubtKind.class);

    private Draft(DoubtKind kind, String name, Job job) {
      this.kind = kind;
      this.name = name;
      this.job = job;
    }

    Draft onFibre(String fibre) {
      subject = new Subject(Subject.Type.FIBRE, fibre);
      return this;
    }

    Draft onLink(String link) {
      subject = Subject.link(link);
      return this;
    }

    Draft onPlace(String place) {
      subject = new Subject(Subject.Type.PLACE, place);
      return this;
    }

    /** More than one doubt of the kind rings; the others have other subjects. */
    Draft times(int rings) {
      times = rings;
      return this;
    }

    Draft onZero(String id) {
      subject = Subject.reference(id);
      return this;
    }

    Draft onInstrument(String id) {
      subject = new Subject(Subject.Type.INSTRUMENT, id);
      return this;
    }

    Draft onCord(String id) {
      subject = new Subject(Subject.Type.CORD, id);
      return this;
    }

    Draft blocking() {
      blocking = true;
      return this;
    }

    Draft reaching(Predicate<Reading> readings, String... touched) {
      reached = readings;
      fibres = Set.of(touched);
      return this;
    }

    Draft touching(String... touched) {
      fibres = Set.of(touched);
      return this;
    }

    Draft besides(DoubtKind... kinds) {
      besides.addAll(Set.of(kinds));
      return this;
    }

    DoubtCase butNotIn(JobFixture neighbour, DoubtKind... ringing) {
      return new DoubtCase(
          kind,
          name,
          job,
          subject,
          blocking,
          reached,
          fibres,
          times,
          besides,
          neighbour.job(),
          Set.of(ringing));
    }
  }

  @Override
  public String toString() {
    return kind.id() + ": " + name;
  }
}
