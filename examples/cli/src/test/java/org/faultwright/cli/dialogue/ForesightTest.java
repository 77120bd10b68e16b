package org.faultwright.cli.dialogue;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.Fact;
import org.faultwright.diagnosis.Answer;
import org.faultwright.diagnosis.Diagnosis;
import org.faultwright.diagnosis.Engine;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.StepId;
import org.faultwright.pack.reader.PackReader;
import org.faultwright.pack.reader.PackReading;
import org.faultwright.pack.yaml.YamlText;
import org.junit.jupiter.api.Test;

/** What is worked out beside is what would have been worked out here. */
class ForesightTest {

  private static final Pack PACK =
      ((PackReading.Readable)
              new PackReader()
                  .read(
                      YamlText.read(
                          Path.of("src/test/resources/packs/plover-tablet/sound/pack.yaml"))))
          .pack();

  @Test
  void anAnswer_isTheSameWhoeverWorksItOut() {
    Engine engine = Engine.create();
    CaseFile now =
        CaseFile.begun("c", PACK.id(), PACK.version())
            .with(new Fact.Complained(new ComplaintId("no-sound"), true));
    List<CaseFile> then =
        PACK.steps().get(new StepId("look-at-grille")).shows().orElseThrow().outcomes().stream()
            .map(o -> now.with(new Fact.OutcomeSeen(new StepId("look-at-grille"), o)))
            .toList();
    try (Foresight foresight = new Foresight(engine, PACK);
        Diagnosis here = engine.resume(PACK, now)) {
      here.answer();
      foresight.begin(then);
      foresight.await();
      for (CaseFile c : then) {
        Optional<Answer> foreseen = foresight.of(c);
        try (Diagnosis diagnosis = engine.resume(PACK, c)) {
          assertThat(foreseen).contains(diagnosis.answer());
        }
      }
      assertThat(foresight.of(now)).isEmpty();
      foresight.begin(List.of());
      assertThat(foresight.of(then.get(0))).isEmpty();
    }
  }

  @Test
  void somethingThatCannotBeWorkedOut_isLeftToWhoAsks() {
    Engine engine = Engine.create();
    CaseFile wrong =
        CaseFile.begun("c", PACK.id(), PACK.version())
            .with(new Fact.OutcomeSeen(new StepId("no-such-step"), new OutcomeId("x")));
    try (Foresight foresight = new Foresight(engine, PACK)) {
      foresight.begin(List.of(wrong));
      foresight.await();
      assertThat(foresight.of(wrong)).isEmpty();
    }
  }
}
