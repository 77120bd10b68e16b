package org.faultwright.compile;

import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.faultwright.casefile.SharedSetup;
import org.faultwright.inference.Evaluation;
import org.faultwright.inference.Mixture;
import org.faultwright.measurement.PairModel;
import org.faultwright.pack.Comparison;
import org.faultwright.pack.History;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;
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

  /** Enters facts into an evaluation, which is the result's own from then on. */
  static Entered enter(
      Pack pack,
      Network network,
      ReadingModels readings,
      List<Bound> facts,
      Evaluation evaluation) {
    Evidence evidence = new Evidence(pack, network, readings, evaluation);
    Map<Slot, List<Bound.ReadingAt>> ofPoint = new LinkedHashMap<>();
    Map<PointId, List<Bound.KnownGoodAt>> knownGood = new LinkedHashMap<>();
    Map<Slot, Set<SymptomValue>> ofSymptom = new LinkedHashMap<>();
    for (Bound b : facts) {
      if (b instanceof Bound.ReadingAt r) {
        ofPoint.computeIfAbsent(r.slot(), s -> new ArrayList<>()).add(r);
      } else if (b instanceof Bound.KnownGoodAt g) {
        knownGood.computeIfAbsent(g.point().id(), p -> new ArrayList<>()).add(g);
      } else if (b instanceof Bound.SymptomAt s) {
        ofSymptom.computeIfAbsent(s.slot(), k -> EnumSet.noneOf(SymptomValue.class)).add(s.value());
      } else {
        evidence.enter(b);
      }
    }
    ofSymptom.forEach(evidence::enterSymptom);
    return evidence.enterReadings(ofPoint.values(), knownGood.values());
  }

  /**
   * Evidence as entered.
   *
   * @param mixture what is to be evaluated
   * @param offsets the shared systematic errors that it sums over, in the order of its components
   */
  record Entered(Mixture mixture, List<SharedOffsets> offsets) {}

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

  /**
   * Readings of one setup share a systematic error. Where only one point feels it, it is summed
   * over at that point.
   */
  private Entered enterReadings(
      Collection<List<Bound.ReadingAt>> ofPoints, Collection<List<Bound.KnownGoodAt>> knownGood) {
    Map<Slot, PointReadings> onDevice = new LinkedHashMap<>();
    Map<Slot, Step> compared = new LinkedHashMap<>();
    for (List<Bound.ReadingAt> of : ofPoints) {
      Bound.ReadingAt first = of.get(0);
      onDevice.put(
          first.slot(),
          readings.of(
              first.step(), first.point(), of.stream().map(Bound.ReadingAt::reading).toList()));
      first.compared().ifPresent(slot -> compared.put(slot, first.comparison().get()));
    }
    Map<Slot, PointReadings> onKnownGood = new LinkedHashMap<>();
    Map<Slot, Step> comparedThere = new LinkedHashMap<>();
    for (List<Bound.KnownGoodAt> of : knownGood) {
      Bound.KnownGoodAt first = of.get(0);
      onKnownGood.put(
          new Slot(first.point().id(), 0, 0),
          readings.of(
              first.step(), first.point(), of.stream().map(Bound.KnownGoodAt::reading).toList()));
      first.comparison().ifPresent(step -> comparedThere.put(new Slot(step.id(), 0, 0), step));
    }
    List<OffsetGrid.Placed> all = new ArrayList<>();
    compared.forEach(
        (slot, step) ->
            pair(slot, step, onDevice)
                .ifPresent(p -> all.add(new OffsetGrid.Placed(network.pairs.get(slot), p))));
    comparedThere.forEach(
        (slot, step) ->
            pair(slot, step, onKnownGood)
                .ifPresent(p -> all.add(OffsetGrid.Placed.known(Observations.ALIKE, p))));
    onDevice.forEach(
        (slot, of) ->
            all.add(
                new OffsetGrid.Placed(
                    network.points.get((PointId) slot.what()).get(slot.epoch()).variable(), of)));
    onKnownGood.values().forEach(of -> all.add(OffsetGrid.Placed.known(0, of)));
    return enterAll(all);
  }

  /**
   * The readings of two points that are compared, if any can be. In two setups they share nothing
   * with others from then on.
   */
  private Optional<PairReadings> pair(Slot slot, Step step, Map<Slot, PointReadings> of) {
    Comparison compares = step.compares().orElseThrow();
    Slot one = new Slot(compares.point(), slot.epoch(), 0);
    Slot other = new Slot(compares.with(), slot.epoch(), 0);
    Optional<PairModel> model = readings.of(compares);
    if (model.isEmpty() || !isComparable(of.get(one)) && !isComparable(of.get(other))) {
      return Optional.empty();
    }
    if (isComparable(of.get(one))
        && isComparable(of.get(other))
        && of.get(one).setup().isPresent()
        && of.get(other).setup().isPresent()
        && !of.get(one).setup().equals(of.get(other).setup())) {
      of.computeIfPresent(one, (s, r) -> r.alone());
      of.computeIfPresent(other, (s, r) -> r.alone());
    }
    return Optional.of(
        new PairReadings(
            model.get(),
            Optional.ofNullable(of.get(one)).filter(PointReadings::isComparable),
            Optional.ofNullable(of.get(other)).filter(PointReadings::isComparable)));
  }

  private static boolean isComparable(PointReadings of) {
    return of != null && of.isComparable();
  }

  private Entered enterAll(List<OffsetGrid.Placed> all) {
    Map<SharedSetup, List<OffsetGrid.Placed>> sharing = new TreeMap<>();
    for (OffsetGrid.Placed placed : all) {
      if (placed.readings().feels(OffsetGrid.NEAR)) {
        sharing
            .computeIfAbsent(placed.readings().setup().get(), s -> new ArrayList<>())
            .add(placed);
      } else {
        enterAlone(placed);
      }
    }
    sharing.values().stream().filter(s -> !isShared(s)).forEach(s -> s.forEach(this::enterAlone));
    sharing.values().removeIf(s -> !isShared(s));
    return SharedOffsets.sumOver(evaluation, sharing);
  }

  /** Whether the readings of more than one point feel an error. */
  private static boolean isShared(List<OffsetGrid.Placed> readings) {
    return OffsetGrid.points(readings) > 1;
  }

  private void enterAlone(OffsetGrid.Placed placed) {
    double[] likelihood = placed.readings().ofTheirOwn();
    if (placed.variable() < 0) {
      evaluation.weighAll(likelihood[placed.knownState()]);
    } else {
      evaluation.weigh(placed.variable(), likelihood);
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
