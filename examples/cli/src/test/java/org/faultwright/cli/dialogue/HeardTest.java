package org.faultwright.cli.dialogue;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.faultwright.cli.dialogue.Question.Choice;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.measurement.Reference;
import org.faultwright.pack.Basis;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.StepId;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What a typed line means. */
class HeardTest {

  private static final Choice DROPS = new Choice("drops out (74 %)", new Act.End());
  private static final Choice HOLDS = new Choice("holds (26 %)", new Act.SomethingElse());
  private static final Choice HELD_BACK = new Choice("held back (1 %)", new Act.End());
  private static final Question PICK =
      new Question(
          "?", List.of(DROPS, HOLDS), Optional.empty(), Optional.of(new StepId("s")), List.of());
  private static final Question READ =
      new Question(
          "?",
          List.of(),
          Optional.of(
              new Point(
                  new PointId("p"),
                  "Point",
                  Optional.empty(),
                  new Reference.Around(Dimension.VOLTAGE, 0.48, 0.04),
                  new Basis.CommonPractice(),
                  List.of(state("sags"), state("slow-edges"), state("slow-fall"), state("other")),
                  Set.of())),
          Optional.of(new StepId("s")),
          List.of());

  private static Point.ReadingState state(String name) {
    return new Point.ReadingState(
        new org.faultwright.pack.StateId(name), java.util.Map.of(), Optional.empty());
  }

  @ParameterizedTest
  @CsvSource({
    "sags, sags",
    "SAGS, sags",
    "sag, sags",
    "slow edges, slow-edges",
    "Slow-Ed, slow-edges",
    "normal, normal",
    "nor, normal"
  })
  void aStateSeenWithoutANumber_byItsNameOrItsFirstLetters(String typed, String state) {
    assertThat(Heard.of(typed, READ))
        .isEqualTo(new Heard.Value(new ReadingValue.Named(state, Dimension.VOLTAGE)));
  }

  @Test
  void wordsOfTheDialogue_comeBeforeStates_andStatesNotByOneLetter() {
    assertThat(Heard.of("other", READ)).isEqualTo(new Heard.Command(Verb.OTHER, ""));
    assertThat(Heard.of("s", READ)).isNotInstanceOf(Heard.Value.class);
    assertThat(Heard.of("slow", READ))
        .isEqualTo(new Heard.Unclear("'slow' may be: slow-edges, slow-fall."));
    assertThat(Heard.of("sags", PICK)).isInstanceOf(Heard.Unclear.class);
  }

  @ParameterizedTest
  @CsvSource({"NaN", "inf", "-Infinity", "\u221e", "--", "n/a"})
  void whatIsNoNumber_isTold(String typed) {
    assertThat(((Heard.Unclear) Heard.of(typed, READ)).words())
        .startsWith("'" + typed + "' is no number. What is beyond the range is OL");
  }

  @ParameterizedTest
  @ValueSource(strings = {"\uFEFF0.452", "\"0.452\"", " \"0,452 V\" ", "\"452\""})
  void cellOfATable_isAReadingWithoutItsQuotes(String typed) {
    assertThat(Heard.of(typed, READ))
        .isEqualTo(
            new Heard.Value(new ReadingValue.Measured(new Quantity(0.452, Dimension.VOLTAGE))));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"pin,value", "pin;value", "5,0.452", "5;0,452", "5\t452", "D+,sags", "0.4\n0.5"})
  void rowOfATable_isNotKept(String typed) {
    assertThat(((Heard.Unclear) Heard.of(typed, READ)).words()).startsWith("That is a table, and");
  }

  @Test
  void decimalComma_isNoRowOfATable() {
    assertThat(Heard.of("0,452", READ)).isInstanceOf(Heard.Value.class);
    assertThat(Heard.of("0,452 V", READ)).isInstanceOf(Heard.Value.class);
    assertThat(((Heard.Unclear) Heard.of("1\n2\n1\n", PICK)).words()).startsWith("That is a table");
  }

  @ParameterizedTest
  @CsvSource({"1", "' 1 '", "01", "d", "drops", "Drops-Out", "drops out"})
  void aChoice_byNumberOrByLetters(String typed) {
    assertThat(Heard.of(typed, PICK)).isEqualTo(new Heard.Chosen(DROPS));
  }

  @ParameterizedTest
  @CsvSource({"drops", "same", "sa"})
  void aChoice_byWhatItMeansBesideWhatWasSeenBefore(String typed) {
    Choice same = new Choice("drops out: same (40 %)", new Act.End());
    Choice gone = new Choice("holds: gone (60 %)", new Act.SomethingElse());
    Question again =
        new Question("?", List.of(same, gone), Optional.empty(), Optional.empty(), List.of());
    assertThat(Heard.of(typed, again)).isEqualTo(new Heard.Chosen(same));
  }

  @Test
  void lettersOfAChoice_comeBeforeShortWords() {
    // h begins 'help' as well
    assertThat(Heard.of("h", PICK)).isEqualTo(new Heard.Chosen(HOLDS));
    assertThat(Heard.of("help", PICK)).isEqualTo(new Heard.Command(Verb.HELP, ""));
  }

  @Test
  void lettersOfTwoChoices_areAskedAbout() {
    Question two =
        new Question("?", List.of(HOLDS, HELD_BACK), Optional.empty(), Optional.empty(), List.of());
    assertThat(Heard.of("h", two))
        .isEqualTo(
            new Heard.Unclear("'h' may be: holds (26 %), held back (1 %). Type its number."));
    assertThat(Heard.of("hel", two)).isEqualTo(new Heard.Chosen(HELD_BACK));
  }

  @ParameterizedTest
  @CsvSource({
    "0, CANNOT_TELL, ''",
    "-, COULD_NOT_DO, ''",
    "~, SOMETIMES, ''",
    "+, OTHER, ''",
    "*, WHY, ''",
    "/, UNDO, ''",
    "., READ_OUT, ''",
    "?, HELP, ''",
    "don't know, CANNOT_TELL, ''",
    "could not do screw stripped, COULD_NOT_DO, screw stripped",
    "undo, UNDO, ''",
    "und, UNDO, ''",
    "why not battery-worn, WHY, not battery-worn",
    "what if 1, IF, 1",
    "NOTE Screw 3, NOTE, Screw 3",
    "quit, QUIT, ''",
    "q, QUIT, ''",
    "other 2, OTHER, 2"
  })
  void aCommand_bySignWordOrPhrase(String typed, Verb verb, String rest) {
    assertThat(Heard.of(typed, PICK)).isEqualTo(new Heard.Command(verb, rest));
  }

  @Test
  void zero_isAReadingWhereOneIsAskedFor() {
    assertThat(Heard.of("0", READ)).isInstanceOf(Heard.Value.class);
    assertThat(Heard.of("-", READ)).isEqualTo(new Heard.Command(Verb.COULD_NOT_DO, ""));
    assertThat(Heard.of(".", READ)).isEqualTo(new Heard.Command(Verb.READ_OUT, ""));
    assertThat(Heard.of("-.4", READ)).isInstanceOf(Heard.Value.class);
    assertThat(Heard.of("OL", READ)).isInstanceOf(Heard.Value.class);
    assertThat(Heard.of("don't know", READ)).isEqualTo(new Heard.Command(Verb.CANNOT_TELL, ""));
  }

  @Test
  void wrongKeys_areNamedWithAWayOut() {
    assertThat(Heard.of("3", PICK))
        .isEqualTo(new Heard.Unclear("There is no 3 here; type 1 to 2."));
    assertThat(Heard.of("xyzzy", PICK))
        .isEqualTo(new Heard.Unclear("'xyzzy' means nothing here; type 1 to 2, or ? for help."));
    assertThat(Heard.of("hodls", PICK)).isInstanceOf(Heard.Unclear.class);
    assertThat(((Heard.Unclear) Heard.of("0.4 ohm", READ)).words())
        .startsWith("'0.4 ohm' is no reading here: ");
    assertThat(Heard.of("x".repeat(5000), PICK))
        .isEqualTo(new Heard.Unclear("That is 5000 signs long; nothing was kept of it."));
    assertThat(Heard.of("  ", PICK)).isEqualTo(new Heard.Nothing());
  }

  @ParameterizedTest
  @CsvSource({"1 3, 2", "'1,3', 2", "2 2, 1", "-1 ~2, 2"})
  void marks_areNumbersWithSigns(String typed, int howMany) {
    assertThat(Marks.parse(typed, 3).all()).hasSize(howMany);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "4 | there is no 4 on the list; type 1 to 3",
        "0 | there is no 0 on the list; type 1 to 3",
        "one | 'one' is no number of the list; type numbers with spaces, such as 1 3",
        "1 -1 | 1 stands there in two ways; type it once"
      },
      quoteCharacter = '"')
  void marksThatMeanNothing_areRefused(String typed, String words) {
    org.assertj.core.api.Assertions.assertThatThrownBy(() -> Marks.parse(typed, 3))
        .hasMessage(words);
  }
}
