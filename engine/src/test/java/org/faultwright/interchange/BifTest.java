package org.faultwright.interchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.faultwright.problem.Problem;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The bracketed text form of BIF, version 0.15. */
class BifTest {

  private static final String TWO =
      "network n { }\nvariable a { type discrete [ 2 ] { yes, no }; }\n"
          + "variable b { type discrete [ 3 ] { x y z }; }\n";
  private static final String ROOT = "probability ( a ) { table 0.2, 0.8; }\n";
  private static final String ROWS =
      "probability ( b | a ) { (yes) 0.1 0.2 0.7; (no) 0.5 0.5 0; }\n";

  @Test
  void everyFormOfATable_isRead() {
    BayesNetwork rows = read(TWO + ROOT + ROWS);
    assertThat(rows.name()).isEqualTo("n");
    assertThat(rows.variables().get(1).states()).containsExactly("x", "y", "z");
    assertThat(rows.variables().get(1).rows())
        .containsExactly(List.of(0.1, 0.2, 0.7), List.of(0.5, 0.5, 0.0));
    // in full: the state of the child runs slowest (the format's example "dog-problem", from
    // memory)
    assertThat(read(TWO + ROOT + "probability ( b a ) { table 0.1 0.5 0.2 0.5 0.7 0; }"))
        .isEqualTo(rows);
    assertThat(read(TWO + ROOT + "probability (b|a) { default 0.5,0.5,0; (yes) 0.1,0.2,0.7; }"))
        .isEqualTo(rows);
  }

  @Test
  void commentsPropertiesAndQuotes_areUnderstood() {
    BayesNetwork network =
        read(
            """
            // of the clinic
            network "the clinic" { property version "1; 2" ; /* a
            long comment */ }
            variable "two words" { property position = (73, 165) ; type discrete[2] { "a b", <5 }; }
            probability("two words"){ property x ; table 1e-1 9e-1 ; }
            """);
    assertThat(network.name()).isEqualTo("the clinic");
    assertThat(network.variables().get(0).name()).isEqualTo("two words");
    assertThat(network.variables().get(0).states()).containsExactly("a b", "<5");
    assertThat(network.variables().get(0).rows()).containsExactly(List.of(0.1, 0.9));
  }

  @Test
  void variablesKeepTheirOrder_whateverTheOrderOfTables() {
    BayesNetwork network =
        read(
            "variable b { type discrete [2] {x y}; } variable a { type discrete [2] {yes no}; }"
                + "probability(b|a) { (yes) 0.1 0.9; (no) 0.5 0.5; } probability(a) {table 0.2"
                + " 0.8;}");
    assertThat(network.variables().get(0).name()).isEqualTo("b");
    assertThat(network.variables().get(0).parents()).containsExactly(1);
  }

  @Test
  void rowsThatAreOffByRounding_areDividedByTheirSum() {
    BayesNetwork silent = read(TWO + ROOT.replace("0.8", "0.8000003") + ROWS);
    assertThat(silent.variables().get(0).rows().get(0).get(0))
        .isCloseTo(0.2 / 1.0000003, within(1e-15));
    Reading<BayesNetwork> told =
        Bif.read(ExchangeText.of("n.bif", TWO + ROOT.replace("0.8", "0.799") + ROWS));
    assertThat(told).isInstanceOf(Reading.Readable.class);
    assertThat(told.report())
        .startsWith("n.bif:4:15: warning[row-sum]: the table of 'a' sums to 0.999")
        .endsWith("1 warning\n");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {
        "(yes) 0.1 0.2 0.7; (no) 0.5 0.4 0;|row-sum|the row of 'b' for a = no sums to 0.9",
        "(yes) 0.1 0.2 0.7;|table-size|the table of 'b' has no row for a = no",
        "(yes) 0.1 0.2 0.7; (no) 0.5 0.5;|table-size|a row of 'b' must have 3 numbers, and this has"
            + " 2",
        "(yes) 0.1 0.2 0.7; (nein) 0.5 0.5 0;|not-defined|variable 'a' has no state 'nein'",
        "(yes no) 0.1 0.2 0.7;|table-size|a row of 'b' must name 1 states, and this names 2",
        "table 0.1 0.2 0.7;|table-size|the table of 'b' must have 6 numbers, and has 3",
        "table 0.1 0.2 0.7 0.5 0.5 0;|row-sum|the row of 'b' for a = yes sums to 1.3",
        "default 1 0;|table-size|a row of 'b' must have 3 numbers, and this has 2",
        "(yes) 0.1 -0.2 0.7;|bad-number|a probability must be a number in [0, 1]: -0.2",
        "(yes) 0.1 0.2 0.7 (no) 0.5 0.5 0;|bad-number|a probability must be a number in [0, 1]: (",
        "(yes) 0.1 0,2 0.7;|bad-number|a probability must be a number in [0, 1]: 2",
        "rows 0.1;|not-bif|'rows' is not expected here",
        "(yes) 0.1|bad-number|a probability must be a number in [0, 1]: }",
      })
  void wrongTable_isTold(String table, String id, String message) {
    Problem problem = onlyProblem(TWO + ROOT + "probability ( b | a ) { " + table + " }\n");
    assertThat(problem.id()).isEqualTo(id);
    assertThat(problem.message()).contains(message);
    assertThat(problem.wayOut()).isPresent();
    assertThat(problem.where().orElseThrow().line()).isEqualTo(5);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '#',
      quoteCharacter = '`',
      value = {
        "varable a { }#not-bif#'varable' begins no block",
        "variable a { type continuous; }#not-taken#variable 'a' is 'continuous'",
        "variable a { type discrete [2] { yes }; }#table-size#says that it has 2 states, and lists"
            + " 1",
        "variable a { type discrete { yes, yes }; }#defined-twice#has state 'yes' twice",
        "variable a { type discrete { yes, no }; }#not-defined#variable 'a' has no table",
        "variable a { type discrete { yes, no#not-bif#the file ends where '}' is expected",
        "variable a { colour red; }#not-bif#'colour' is not expected here",
        "variable { type discrete { yes, no }; }#not-bif#a name is expected here: {",
        "network n { }#not-bif#the network has no variables",
        "probability ( ) { table 1; }#not-bif#the table is for no variable",
      })
  void wrongBlock_isTold(String text, String id, String message) {
    List<Problem> problems = problems(text);
    assertThat(problems).isNotEmpty();
    assertThat(problems.get(0).id()).isEqualTo(id);
    assertThat(problems.get(0).message()).contains(message);
  }

  @Test
  void namesThatNothingDefines_areTold() {
    Problem problem = onlyProblem(TWO + ROOT + ROWS.replace("| a", "| aa"));
    assertThat(problem.id()).isEqualTo("not-defined");
    assertThat(problem.wayOut()).hasValue("did you mean 'a'?");
    assertThat(problem.where().orElseThrow().column()).isEqualTo(19);
  }

  @Test
  void circleOfArrows_isTold() {
    Problem problem = onlyProblem(TWO + "probability ( a | b ) { default 0.5 0.5; }\n" + ROWS);
    assertThat(problem.id()).isEqualTo("cycle");
  }

  /** A few lines that ask for a table of 3^40 rows. */
  @Test
  void tableThatWouldGrowBeyondMeasure_isRefused() {
    StringBuilder text = new StringBuilder();
    StringBuilder parents = new StringBuilder();
    for (int i = 0; i < 40; i++) {
      text.append("variable v" + i + " { type discrete { a b c }; } probability ( v" + i);
      text.append(" ) { default 1 0 0; }\n");
      parents.append(" v" + i);
    }
    text.append("variable w { type discrete { a b }; } probability ( w |" + parents);
    text.append(" ) { default 1 0; }\n");
    Problem problem = onlyProblem(text.toString());
    assertThat(problem.id()).isEqualTo("too-many-nodes");
  }

  private static BayesNetwork read(String text) {
    Reading<BayesNetwork> reading = Bif.read(ExchangeText.of("n.bif", text));
    assertThat(reading.report()).isEmpty();
    return ((Reading.Readable<BayesNetwork>) reading).value();
  }

  private static Problem onlyProblem(String text) {
    List<Problem> problems = problems(text);
    assertThat(problems).hasSize(1);
    return problems.get(0);
  }

  private static List<Problem> problems(String text) {
    Reading<BayesNetwork> reading = Bif.read(ExchangeText.of("n.bif", text));
    assertThat(reading).isInstanceOf(Reading.Unreadable.class);
    return reading.problems();
  }
}
