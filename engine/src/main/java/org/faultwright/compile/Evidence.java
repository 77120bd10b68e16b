package org.faultwright.compile;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.faultwright.casefile.Fact;
import org.faultwright.inference.Evaluation;
import org.faultwright.pack.History;
import org.faultwright.pack.Pack;
import org.faultwright.pack.SymptomValue;

/** What the facts of a case weigh in a network. */
final class Evidence {

  private final Pack pack;
  private final Network network;
  private final ReadingModels readings;
  private final Evaluation evaluation;

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
    for (Bound b : facts) {
      if (b instanceof Bound.ReadingAt r) {
        ofPoint.computeIfAbsent(r.slot(), s -> new ArrayList<>()).add(r);
      } else {
        evidence.enter(b);
      }
    }
    ofPoint.values().forEach(evidence::enterReadings);
  }

  private void enter(Bound b) {
    if (b instanceof Bound.Report r) {
      Seen seen = network.reports.get(r.complaint());
      weigh(seen.variable(), seen.likelihood(r.reported() ? Network.REPORTED : Network.DENIED));
    } else if (b instanceof Bound.Witness w) {
      History history = pack.histories().get(w.history());
      (w.said() ? history.said() : history.seen()).ifPresent(x -> witness(w, x));
    } else if (b instanceof Bound.SymptomAt s) {
      symptom(s);
    } else if (b instanceof Bound.OutcomeAt o) {
      Seen seen = network.seen.get(o.slot());
      weigh(seen.variable(), seen.likelihood(o.outcome()));
    } else if (b instanceof Bound.RepeatAt r) {
      repeat(r);
    }
  }

  private void witness(Bound.Witness w, History.Witness witness) {
    Ref.At ref = (Ref.At) network.histories.get(w.history());
    double ifSo = w.yes() ? witness.catches().p() : 1 - witness.catches().p();
    double ifNot = w.yes() ? witness.criesWolf().p() : 1 - witness.criesWolf().p();
    weigh(ref.variable(), new double[] {ifNot, ifSo});
  }

  private void symptom(Bound.SymptomAt s) {
    Seen seen = network.seen.get(s.slot());
    double[] present = seen.likelihood(seen.outcomes().get(0));
    double[] weight = new double[present.length];
    double overlooked =
        pack.symptoms().get((org.faultwright.pack.SymptomId) s.slot().what()).overlooked().p();
    for (int i = 0; i < weight.length; i++) {
      weight[i] =
          s.value() == SymptomValue.ABSENT
              ? 1 - present[i]
              : s.value() == SymptomValue.NOT_SEEN
                  ? overlooked * present[i] + 1 - present[i]
                  : present[i];
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
