package org.faultwright.compile;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.casefile.Fact;
import org.faultwright.inference.Evaluation;
import org.faultwright.pack.History;
import org.faultwright.pack.Pack;
import org.faultwright.pack.SymptomId;
import org.faultwright.pack.SymptomValue;

/** What the facts of a case weigh in a network. */
final class Evidence {

  private final Pack pack;
  private final Network network;
  private final ReadingModels readings;
  private final Evaluation evaluation;
  private final Map<Object, Boolean> answers = new HashMap<>();

  private Evidence(Pack pack, Network network, ReadingModels readings, Evaluation evaluation) {
    this.pack = pack;
    this.network = network;
    this.readings = readings;
    this.evaluation = evaluation;
  }

  /** Enters facts into an evaluation. */
  static void enter(
      Pack pack,
      Network network,
      ReadingModels readings,
      List<Bound> facts,
      Evaluation evaluation) {
    Evidence evidence = new Evidence(pack, network, readings, evaluation);
    Map<Slot, List<Bound.ReadingAt>> ofPoint = new LinkedHashMap<>();
    Map<Slot, Set<SymptomValue>> ofSymptom = new LinkedHashMap<>();
    for (Bound b : facts) {
      if (b instanceof Bound.ReadingAt r) {
        ofPoint.computeIfAbsent(r.slot(), s -> new ArrayList<>()).add(r);
      } else if (b instanceof Bound.SymptomAt s) {
        ofSymptom.computeIfAbsent(s.slot(), k -> EnumSet.noneOf(SymptomValue.class)).add(s.value());
      } else {
        evidence.enter(b);
      }
    }
    ofSymptom.forEach(evidence::enterSymptom);
    ofPoint.values().forEach(evidence::enterReadings);
  }

  private void enter(Bound b) {
    if (b instanceof Bound.Report r) {
      if (isNews(r.complaint(), r.reported())) {
        Seen seen = network.seen.get(Slots.report(r.complaint()));
        weigh(seen.variable(), seen.likelihood(r.reported() ? Network.REPORTED : Network.DENIED));
      }
    } else if (b instanceof Bound.Witness w) {
      History history = pack.histories().get(w.history());
      Optional<History.Witness> witness = w.said() ? history.said() : history.seen();
      if (witness.isPresent() && isNews(List.of(w.history(), w.said()), w.yes())) {
        witness(w, witness.get());
      }
    } else if (b instanceof Bound.OutcomeAt o) {
      Seen seen = network.seen.get(o.slot());
      weigh(seen.variable(), seen.likelihood(o.outcome()));
    } else if (b instanceof Bound.RepeatAt r) {
      repeat(r);
    }
  }

  /** An answer told twice is told once; told both ways it is impossible. */
  private boolean isNews(Object about, boolean yes) {
    Boolean before = answers.putIfAbsent(about, yes);
    if (before != null && before != yes) {
      evaluation.weighAll(0);
    }
    return before == null;
  }

  private void witness(Bound.Witness w, History.Witness witness) {
    Ref.At ref = (Ref.At) network.histories.get(w.history());
    double ifSo = w.yes() ? witness.catches().p() : 1 - witness.catches().p();
    double ifNot = w.yes() ? witness.criesWolf().p() : 1 - witness.criesWolf().p();
    weigh(ref.variable(), new double[] {ifNot, ifSo});
  }

  /** A closer look repeats the first; not seen at a first look is weaker than absent. */
  private void enterSymptom(Slot slot, Set<SymptomValue> values) {
    Seen seen = network.seen.get(slot);
    double[] weight = seen.likelihood(seen.outcomes().get(0));
    double overlooked =
        values.contains(SymptomValue.NOT_SEEN)
            ? pack.symptoms().get((SymptomId) slot.what()).overlooked().p()
            : 1;
    boolean found =
        values.contains(SymptomValue.PRESENT) || values.contains(SymptomValue.SOMETIMES);
    boolean absent = values.contains(SymptomValue.ABSENT);
    for (int i = 0; i < weight.length; i++) {
      double present = absent ? 0 : overlooked * weight[i];
      weight[i] = found ? present : present + 1 - weight[i];
    }
    weigh(seen.variable(), weight);
  }

  private void repeat(Bound.RepeatAt r) {
    double same = r.outcome().equals(r.first()) ? 1 : 0;
    if (r.pCopies() == 1) {
      evaluation.weighAll(same);
      return;
    }
    Seen seen = network.seen.get(r.slot());
    double[] weight = seen.likelihood(r.outcome());
    for (int i = 0; i < weight.length; i++) {
      weight[i] = r.pCopies() * same + (1 - r.pCopies()) * weight[i];
    }
    weigh(seen.variable(), weight);
  }

  private void enterReadings(List<Bound.ReadingAt> of) {
    Bound.ReadingAt first = of.get(0);
    List<Fact.ReadingTaken> taken = of.stream().map(Bound.ReadingAt::reading).toList();
    double[] likelihood = readings.likelihood(first.step(), first.point(), taken);
    Observations.PointState state =
        network.points.get(first.point().id()).get(first.slot().epoch());
    if (state.variable() < 0) {
      evaluation.weighAll(likelihood[-1 - state.variable()]);
    } else {
      evaluation.weigh(state.variable(), likelihood);
    }
  }

  private void weigh(int variable, double[] likelihood) {
    if (variable < 0) {
      evaluation.weighAll(likelihood[0]);
    } else {
      evaluation.weigh(variable, likelihood);
    }
  }
}
