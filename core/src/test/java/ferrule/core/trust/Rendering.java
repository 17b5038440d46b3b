package ferrule.core.trust;

/** A judgement as text, down to the last bit: two are the same if their texts are. */
final class Rendering {

  private Rendering() {}

  static String of(Judgement judgement) {
    StringBuilder text = new StringBuilder();
    text.append(judgement.totals()).append('\n');
    for (FibreJudgement fibre : judgement.fibres()) {
      text.append(fibre.fibre()).append(' ').append(fibre.standing()).append(fibre.reasons());
      for (AssessedReading reading : fibre.readings()) {
        text.append('\n').append(reading.index()).append(reading.reading());
        text.append(reading.current()).append(reading.decision());
        for (double number :
            new double[] {
              reading.lossDb(),
              reading.limitDb(),
              reading.expandedDb(),
              reading.marginDb(),
              reading.probabilityConforming()
            }) {
          text.append(' ').append(Double.toHexString(number));
        }
      }
      text.append('\n');
    }
    for (ZeroTrust zero : judgement.zeros()) {
      text.append(zero).append('\n');
    }
    for (Doubt doubt : judgement.doubts()) {
      text.append(doubt.kind()).append(doubt.subject()).append(doubt.blocking());
      text.append(doubt.reach().readings().stream().map(AssessedReading::index).toList());
      text.append(doubt.reach().fibres()).append(doubt.evidence()).append(doubt.causes());
      text.append(doubt.next()).append(doubt.line()).append('\n');
    }
    for (Action action : judgement.actions()) {
      text.append(action).append('\n');
    }
    return text.toString();
  }
}
