package org.faultwright.benchmarks;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.Intake;
import org.faultwright.pack.Basis;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Chance;
import org.faultwright.pack.Complaint;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Effort;
import org.faultwright.pack.Event;
import org.faultwright.pack.EventId;
import org.faultwright.pack.ModeId;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PackDraft;
import org.faultwright.pack.PackId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;

/**
 * A pack drawn at random with the shape of one that was written: causes with shares of one
 * complaint, five to a block, whose events make up the complaint; one test for every two causes,
 * each of which looks at three to six causes, four in five of them from its own block or the next.
 */
final class GrowingPack {

  private static final ComplaintId COMPLAINT = new ComplaintId("does-not-work");
  private static final int BLOCK = 5;
  private static final int FINDINGS = 5;

  private final SplittableRandom random;
  private final int causes;
  private final Pack pack;

  GrowingPack(int causes, long seed) {
    this.causes = causes;
    random = new SplittableRandom(seed);
    PackDraft draft = new PackDraft(new PackId("drawn", "causes-" + causes));
    draft.invented = true;
    double[] shares = new double[causes];
    double total = 0;
    for (int c = 0; c < causes; c++) {
      shares[c] = Math.exp(2 * random.nextDouble());
      total += shares[c];
    }
    for (int c = 0; c < causes; c++) {
      draft.cause(cause(c, shares[c] / total));
    }
    Map<NodeId, Chance> blocks = new LinkedHashMap<>();
    for (int block = 0; block * BLOCK < causes; block++) {
      Map<NodeId, Chance> inputs = new LinkedHashMap<>();
      for (int c = block * BLOCK; c < Math.min(causes, (block + 1) * BLOCK); c++) {
        inputs.put(id(c), chance(0.7 + 0.3 * random.nextDouble()));
      }
      EventId id = new EventId("block-" + block);
      draft.event(new Event(id, id.value(), new Event.Combination.Any(), inputs, chance(0)));
      blocks.put(id, chance(1));
    }
    EventId top = new EventId("no-function");
    draft.event(new Event(top, top.value(), new Event.Combination.Any(), blocks, chance(0)));
    draft.complaint(
        new Complaint(COMPLAINT, "Does not work", top, chance(0.01), chance(0.05), false));
    for (int t = 0; t < causes / 2; t++) {
      draft.step(test(t));
    }
    pack = draft.build();
  }

  private static CauseId id(int cause) {
    return new CauseId("cause-" + cause);
  }

  private static Chance chance(double p) {
    return Chance.of(p, new Basis.Invented());
  }

  private static Cause cause(int number, double share) {
    return new Cause(
        id(number),
        "Cause " + number,
        Cause.Kind.FAULT,
        new Cause.Likelihood.Share(COMPLAINT, chance(share)),
        Optional.empty(),
        Map.of(),
        Map.of(),
        Map.of(),
        false);
  }

  private Step test(int number) {
    int inputs = 3 + random.nextInt(4);
    int block = number * 2 / BLOCK * BLOCK;
    Map<NodeId, Chance> rates = new LinkedHashMap<>();
    while (rates.size() < inputs) {
      int c =
          random.nextInt(5) > 0
              ? (block + random.nextInt(2 * BLOCK)) % causes
              : random.nextInt(causes);
      rates.put(id(c), chance(0.6 + 0.4 * random.nextDouble()));
    }
    StepId id = new StepId("test-" + number);
    return new Step(
        id,
        "Test " + number,
        "",
        Effort.NONE,
        0,
        Step.Needs.NOTHING,
        ModeId.AT_REST,
        Optional.of(
            new Observation.OfNodes(rates, chance(0.02), OutcomeId.POSITIVE, OutcomeId.NEGATIVE)),
        Optional.empty(),
        Optional.empty(),
        Map.of(),
        Optional.empty(),
        List.of(),
        Optional.empty(),
        false,
        1,
        false,
        List.of(),
        Set.of(),
        Set.of(),
        Set.of(),
        Optional.empty());
  }

  Pack pack() {
    return pack;
  }

  /** The complaint and five outcomes, two of them positive, of tests drawn at random. */
  CaseFile caseFile() {
    SplittableRandom draws = new SplittableRandom(causes);
    CaseFile file =
        CaseFile.empty(pack.id(), Intake.PLAIN).with(new Fact.Complained(COMPLAINT, true));
    List<StepId> tests = new ArrayList<>(pack.steps().keySet());
    for (int f = 0; f < FINDINGS; f++) {
      StepId test = tests.remove(draws.nextInt(tests.size()));
      file = file.with(new Fact.OutcomeSeen(test, f < 2 ? OutcomeId.POSITIVE : OutcomeId.NEGATIVE));
    }
    return file;
  }
}
