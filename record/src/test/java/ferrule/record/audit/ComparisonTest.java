package ferrule.record.audit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.StringReader;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class ComparisonTest {

  private static List<String> json(String says, String follows, boolean sameVersion)
      throws IOException {
    List<String> found = new ArrayList<>();
    new JsonComparison("judgement.json", sameVersion, d -> found.add(d.shown()))
        .compare(
            new StringReader(says.replace('\'', '"')),
            new StringReader(follows.replace('\'', '"')));
    return found;
  }

  private static List<String> table(String says, String follows, boolean sameVersion)
      throws IOException {
    List<String> found = new ArrayList<>();
    new TableComparison("readings.csv", sameVersion, d -> found.add(d.shown()))
        .compare(new StringReader(says), new StringReader(follows));
    return found;
  }

  @Test
  void equalDocumentsHaveNoDifferenceNorHaveLastDigitsOfNumbers() throws IOException {
    String one =
        "{'a':{'b':[1,2.5,'x',null,true]},'fibres':[{'fibre':'K1/1','n':0.30000000000000004}]}";
    assertThat(json(one, one, true)).isEmpty();
    assertThat(json(one, one.replace("0.30000000000000004", "0.3"), true)).isEmpty();
    assertThat(json(one, one.replace("0.30000000000000004", "0.300001"), true))
        .containsExactly(
            "judgement.json, K1/1, n: the record says 0.30000000000000004; 0.300001 follows");
  }

  @Test
  void aThingTooManyIsNamedAndSpoilsNothingBehindIt() throws IOException {
    assertThat(
            json(
                "{'doubts':[{'kind':'missing','subject':'K1/1'},{'kind':'clock','subject':'M1',"
                    + "'blocking':true}]}",
                "{'doubts':[{'kind':'outlier','subject':'K2/1'},{'kind':'missing','subject':'K1/1'},"
                    + "{'kind':'clock','subject':'M1','blocking':false}]}",
                true))
        .containsExactly(
            "judgement.json, doubts, clock M1, blocking: the record says true; false follows",
            "judgement.json, doubts: the record says nothing; outlier K2/1 follows");
  }

  @Test
  void fibresAreComparedInTheOrderOfTheSchedule() throws IOException {
    assertThat(
            json(
                "{'fibres':[{'fibre':'K1/1','standing':'proved'}]}",
                "{'fibres':[{'fibre':'K1/1','standing':'failed'},{'fibre':'K1/2'}]}",
                true))
        .containsExactly(
            "judgement.json, K1/1, standing: the record says proved; failed follows",
            "judgement.json, fibres: the record says nothing; K1/2 follows");
  }

  @Test
  void listsOfWordsAndOtherTypesAreCompared() throws IOException {
    assertThat(json("{'r':['a','b'],'n':null,'m':'one'}", "{'r':['a'],'n':0,'m':1}", true))
        .containsExactly(
            "judgement.json, r: the record says a; b; a follows",
            "judgement.json, n: the record says nothing; 0 follows",
            "judgement.json, m: the record says one; 1 follows");
  }

  @Test
  void aKeyThatOnlyOneVersionKnowsIsNoDifference() throws IOException {
    String old = "{'a':1,'c':{'d':1}}";
    String young = "{'a':1,'b':2,'c':{'d':1,'e':2}}";
    assertThat(json(old, young, false)).isEmpty();
    assertThat(json(young, old, false)).isEmpty();
    assertThat(json(old, young, true))
        .containsExactlyInAnyOrder(
            "judgement.json, b: the record says nothing; 2 follows",
            "judgement.json, c, e: the record says nothing; 2 follows");
  }

  @Test
  void whatIsNoJsonIsRefused() {
    assertThatThrownBy(() -> json("{'a':", "{'a':1}", true)).isInstanceOf(IOException.class);
    assertThatThrownBy(() -> json("{'a':nonsense}", "{'a':1}", true))
        .isInstanceOf(IOException.class);
  }

  @Test
  void tablesAreComparedCellByCell() throws IOException {
    String table = "fibre,direction,loss_db\r\nK1/1,A-B,0.30000000000000004\r\nK1/2,A-B,1.0\r\n";
    assertThat(table(table, table, true)).isEmpty();
    assertThat(table(table, table.replace("0.30000000000000004", "0.3"), true)).isEmpty();
    assertThat(table(table, table.replace("1.0", ""), true))
        .containsExactly(
            "readings.csv, line 3, K1/2 A-B, loss_db: the record says 1.0; nothing follows");
    assertThat(table(table, table + "K1/3,A-B,1.0\r\n", true))
        .containsExactly("readings.csv: the record says no such row; row K1/3 A-B follows");
    assertThat(table(table + "K1/3,A-B,1.0\r\n", table, true))
        .containsExactly("readings.csv, line 4: the record says row K1/3 A-B; no such row follows");
    String wider = "fibre,operator,direction,loss_db\r\nK1/1,W,A-B,0.3\r\nK1/2,W,A-B,1.0\r\n";
    assertThat(table(table, wider, false)).isEmpty();
    assertThat(table(table, wider, true)).hasSize(1);
  }

  @Test
  void theFirstDifferentLineIsFound() {
    assertThat(Lines.firstDifference("a\nb\n", "a\nb\n")).isZero();
    assertThat(Lines.firstDifference("a\nb\n", "a\nc\n")).isEqualTo(2);
    assertThat(Lines.firstDifference("a\nb\n", "a\n")).isEqualTo(2);
    assertThat(Lines.line("a\nb\n", 2)).isEqualTo("b");
    assertThat(Lines.line("a\nb", 3)).isEmpty();
  }
}
