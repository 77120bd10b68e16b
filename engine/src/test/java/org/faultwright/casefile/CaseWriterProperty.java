package org.faultwright.casefile;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.Positive;
import net.jqwik.api.constraints.StringLength;
import org.faultwright.oracle.PackFeature;
import org.faultwright.oracle.RandomCases;
import org.faultwright.oracle.RandomCases.Situation;
import org.faultwright.pack.Goal;
import org.faultwright.pack.Step.Skill;
import org.faultwright.pack.yaml.YamlText;

/** What is written is read back the same; the oracle is the reader. */
class CaseWriterProperty {

  @Provide
  Arbitrary<Situation> situations() {
    return RandomCases.situations(PackFeature.all());
  }

  @Property(tries = 300)
  void everyFactIsReadBack(@ForAll("situations") Situation s) {
    CaseFile written = caseOf(s, Intake.PLAIN, s.facts());
    assertThat(readBack(s, new CaseWriter(s.pack()).write(written))).isEqualTo(written);
  }

  @Property(tries = 300)
  void aFactBehindTheTextIsAFactMore(@ForAll("situations") Situation s) {
    CaseWriter writer = new CaseWriter(s.pack());
    StringBuilder text = new StringBuilder(writer.write(caseOf(s, Intake.PLAIN, List.of())));
    for (int i = 0; i < s.facts().size(); i++) {
      text.append(i == 0 ? "facts:\n" : "").append("  - ");
      text.append(writer.fact(s.facts().get(i))).append('\n');
    }
    assertThat(text).hasToString(writer.write(caseOf(s, Intake.PLAIN, s.facts())));
  }

  /** Whatever a person types into a remark. */
  @Property(tries = 300)
  void anyTextIsReadBack(
      @ForAll("situations") Situation s, @ForAll @StringLength(min = 1, max = 60) String typed) {
    String text =
        new String(
            typed.codePoints().filter(CaseWriterProperty::isSign).toArray(), 0, count(typed));
    if (text.isBlank()) {
      return;
    }
    CaseFile written = caseOf(s, Intake.PLAIN, List.of());
    written = written.with(new Fact.Noted(text));
    CaseFile read = readBack(s, new CaseWriter(s.pack()).write(written));
    assertThat(read.facts()).isEqualTo(written.facts());
  }

  @Property(tries = 200)
  void intakeIsReadBack(
      @ForAll("situations") Situation s,
      @ForAll Goal goal,
      @ForAll Skill skill,
      @ForAll boolean irreplaceable,
      @ForAll @Positive int cents) {
    Intake intake =
        new Intake(
            s.pack().boards().stream().findFirst(),
            goal,
            s.pack().consents().keySet(),
            Set.of(),
            OptionalDouble.of(cents / 100.0),
            irreplaceable ? OptionalDouble.of(cents) : OptionalDouble.empty(),
            irreplaceable ? OptionalDouble.of(cents / 4.0) : OptionalDouble.empty(),
            irreplaceable,
            s.pack().tools().keySet(),
            skill);
    CaseFile written = caseOf(s, intake, s.facts());
    assertThat(readBack(s, new CaseWriter(s.pack()).write(written))).isEqualTo(written);
  }

  private static boolean isSign(int c) {
    return Character.isDefined(c) && Character.getType(c) != Character.SURROGATE;
  }

  private static int count(String typed) {
    return (int) typed.codePoints().filter(CaseWriterProperty::isSign).count();
  }

  private static CaseFile caseOf(Situation s, Intake intake, List<Told> facts) {
    return new CaseFile(
        "drawn",
        Optional.of("Drawn, with: a colon"),
        s.pack().id(),
        Optional.of(s.pack().version()),
        intake,
        new ArrayList<>(facts),
        Optional.empty());
  }

  private static CaseFile readBack(Situation s, String text) {
    CaseReading reading = new CaseReader(s.pack()).read(YamlText.of("written.yaml", text));
    assertThat(reading.report()).as(text).isEmpty();
    return ((CaseReading.Readable) reading).caseFile();
  }
}
