package org.faultwright.oracle;

import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Chance;
import org.faultwright.pack.Complaint;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.EventId;
import org.faultwright.pack.History;
import org.faultwright.pack.HistoryId;
import org.faultwright.pack.Id;
import org.faultwright.pack.ModeId;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.StateId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.Symptom;
import org.faultwright.pack.SymptomId;
import org.faultwright.pack.SymptomValue;

/** A simulated device with its customer: it can be asked, looked at, measured and worked on. */
public final class Device {

  /** What repeats of a step or symptom copy, until an attempt touches it. */
  private static final class Sitting {
    final Innards.Acting acting;
    Optional<OutcomeId> first = Optional.empty();
    Optional<Boolean> overlooked = Optional.empty();

    Sitting(ModeId mode) {
      this.acting = Innards.Acting.when(mode);
    }
  }

  /** What repeated readings of a point share, until an attempt touches it. */
  private static final class Probing {
    final Innards.Acting acting;
    Optional<Double> trueValue = Optional.empty();

    Probing(Innards.Acting acting) {
      this.acting = acting;
    }
  }

  private final Pack pack;
  private final Meter meter;
  private final SplittableRandom random;
  private final Map<HistoryId, Boolean> histories;
  private final Innards innards;
  private final Map<ComplaintId, Boolean> lostAtFirst = new LinkedHashMap<>();
  private final Map<Id, Sitting> sittings = new HashMap<>();
  private final Map<PointId, Probing> probings = new HashMap<>();

  Device(
      Pack pack,
      Meter meter,
      SplittableRandom random,
      Map<HistoryId, Boolean> histories,
      Set<CauseId> own) {
    this.pack = pack;
    this.meter = meter;
    this.random = random;
    this.histories = histories;
    this.innards = new Innards(pack, random, own);
    pack.steps().values().forEach(this::sitDown);
    pack.symptoms().values().forEach(s -> sittings.put(s.id(), new Sitting(s.provokes())));
    for (Complaint complaint : pack.complaints().values()) {
      lostAtFirst.put(complaint.id(), innards.acts(complaint.event(), Innards.Acting.inUse()));
    }
  }

  private void sitDown(Step step) {
    Sitting sitting = new Sitting(step.provokes());
    sittings.put(step.id(), sitting);
    for (Point point : points(step)) {
      probings.put(point.id(), new Probing(sitting.acting));
    }
  }

  private static List<Point> points(Step step) {
    return step.pinTable().map(Step.PinTable::points).orElse(List.of());
  }

  // The truth

  /** Whether a cause is present now. */
  public boolean has(CauseId cause) {
    return innards.present().contains(cause);
  }

  /** The causes that are present now. */
  public Set<CauseId> present() {
    return Set.copyOf(innards.present());
  }

  /** Whether an event holds now, with the device at rest. */
  public boolean holdsAtRest(EventId event) {
    return innards.acts(event, Innards.Acting.when(ModeId.AT_REST));
  }

  /** Whether the function of a complaint is lost now to the one who uses the device. */
  public boolean isLostInUse(ComplaintId complaint) {
    return innards.acts(pack.complaints().get(complaint).event(), Innards.Acting.inUse());
  }

  /** Whether the function of a complaint is lost in use once nothing is hidden any longer. */
  public boolean comesBack(ComplaintId complaint) {
    return innards.acts(pack.complaints().get(complaint).event(), Innards.Acting.later());
  }

  // What can be seen

  /** Whether the customer reports a complaint when asked about it. */
  public boolean reports(ComplaintId complaint) {
    return lostAtFirst.get(complaint)
        || innards.once(
            List.of("mistake", complaint),
            pack.complaints().get(complaint).reportedByMistake().p());
  }

  /** What the customer says of a history that has a witness. */
  public boolean says(HistoryId history) {
    return word("said", history, pack.histories().get(history).said().orElseThrow());
  }

  /** Whether we see traces of a history that has a witness. */
  public boolean showsTraces(HistoryId history) {
    return word("seen", history, pack.histories().get(history).seen().orElseThrow());
  }

  private boolean word(String kind, HistoryId history, History.Witness witness) {
    double p = histories.get(history) ? witness.catches().p() : witness.criesWolf().p();
    return innards.once(List.of(kind, history), p);
  }

  /** A close look for a symptom: present or absent. */
  public SymptomValue looksClosely(SymptomId id) {
    Symptom symptom = pack.symptoms().get(id);
    Sitting sitting = sittings.get(id);
    Observation shows = symptom.shows().orElseThrow();
    if (sitting.first.isEmpty()) {
      sitting.first = Optional.of(fresh(id, shows, sitting.acting));
    }
    return sitting.first.get().equals(shows.outcomes().get(0))
        ? SymptomValue.PRESENT
        : SymptomValue.ABSENT;
  }

  /** A first look for a symptom: present or not seen. */
  public SymptomValue looksAtFirst(SymptomId id) {
    boolean there = looksClosely(id) == SymptomValue.PRESENT;
    Sitting sitting = sittings.get(id);
    if (sitting.overlooked.isEmpty()) {
      sitting.overlooked = Optional.of(innards.flip(pack.symptoms().get(id).overlooked().p()));
    }
    return there && !sitting.overlooked.get() ? SymptomValue.PRESENT : SymptomValue.NOT_SEEN;
  }

  /** The outcome of carrying out a step once; what the step changes is not done by this. */
  public OutcomeId outcome(StepId id) {
    Step step = pack.steps().get(id);
    Observation shows = step.shows().orElseThrow();
    Sitting sitting = sittings.get(id);
    if (sitting.first.isEmpty()) {
      sitting.first = Optional.of(fresh(id, shows, sitting.acting));
      return sitting.first.get();
    }
    return innards.flip(step.copies())
        ? sitting.first.get()
        : fresh(id, shows, Innards.Acting.when(step.provokes()));
  }

  private OutcomeId fresh(Id source, Observation shows, Innards.Acting acting) {
    if (shows instanceof Observation.OfNode o) {
      boolean positive =
          innards.flip(innards.acts(o.node(), acting) ? o.catches().p() : o.criesWolf().p());
      return positive ? o.positive() : o.negative();
    } else if (shows instanceof Observation.OfNodes o) {
      // silent unless one of them, or a false alarm, is heard
      boolean positive = innards.flip(o.criesWolf().p());
      for (Map.Entry<NodeId, Chance> rate : o.rates().entrySet()) {
        double pHeard = 1 - (1 - rate.getValue().p()) / (1 - o.criesWolf().p());
        positive |= innards.acts(rate.getKey(), acting) && innards.flip(pHeard);
      }
      return positive ? o.positive() : o.negative();
    } else if (shows instanceof Observation.OfTable o) {
      List<Boolean> when = o.given().stream().map(n -> innards.acts(n, acting)).toList();
      Map<OutcomeId, Chance> row = new LinkedHashMap<>();
      for (int i = 0; i < o.outcomes().size(); i++) {
        row.put(o.outcomes().get(i), o.rows().get(when).get(i));
      }
      return drawn(row);
    }
    Observation.OfStates o = (Observation.OfStates) shows;
    StateId state = StateId.NORMAL;
    for (int i = o.states().size() - 1; i >= 0; i--) {
      Observation.TrueState s = o.states().get(i);
      state = innards.triggered(source, s.id(), s.triggers(), acting) ? s.id() : state;
    }
    return drawn(o.rows().get(state));
  }

  private OutcomeId drawn(Map<OutcomeId, Chance> row) {
    double left = random.nextDouble();
    OutcomeId last = null;
    for (Map.Entry<OutcomeId, Chance> entry : row.entrySet()) {
      if (entry.getValue().p() > 0) {
        last = entry.getKey();
        left -= entry.getValue().p();
        if (left < 0) {
          break;
        }
      }
    }
    return Optional.ofNullable(last).orElseThrow();
  }

  /** One reading of a point. */
  public ReadingValue read(PointId id) {
    Point point =
        pack.steps().values().stream()
            .flatMap(s -> points(s).stream())
            .filter(p -> p.id().equals(id))
            .findFirst()
            .orElseThrow();
    Probing probing = probings.get(id);
    if (probing.trueValue.isEmpty()) {
      Optional<Step> comparing =
          pack.steps().values().stream()
              .filter(s -> s.compares().filter(c -> c.isAbout(id)).isPresent())
              .findFirst();
      comparing.ifPresent(this::drawTogether);
    }
    if (probing.trueValue.isEmpty()) {
      probing.trueValue = Optional.of(meter.trueValue(point, stateOf(point), random));
    }
    return meter.read(point, probing.trueValue.get(), random);
  }

  private int stateOf(Point point) {
    Innards.Acting acting = probings.get(point.id()).acting;
    int state = 0;
    for (int i = point.states().size(); i > 0; i--) {
      Point.ReadingState s = point.states().get(i - 1);
      state = innards.triggered(point.id(), s.id(), s.triggers(), acting) ? i : state;
    }
    return state;
  }

  /** Two points that are compared have their values from one draw, where both are normal. */
  private void drawTogether(Step comparing) {
    Point first = pack.point(comparing.compares().orElseThrow().point()).orElseThrow();
    Point second = pack.point(comparing.compares().orElseThrow().with()).orElseThrow();
    if (stateOf(first) == 0 && stateOf(second) == 0) {
      Observation.TrueState differ =
          ((Observation.OfStates) comparing.shows().orElseThrow()).states().get(0);
      Innards.Acting acting = sittings.get(comparing.id()).acting;
      double[] values =
          meter.trueValues(
              first,
              second,
              innards.triggered(comparing.id(), differ.id(), differ.triggers(), acting),
              random);
      probings.get(first.id()).trueValue = Optional.of(values[0]);
      probings.get(second.id()).trueValue = Optional.of(values[1]);
    }
  }

  // What can be done

  /** Does what a step does to the device; what it shows is not looked at by this. */
  public void doStep(StepId id) {
    Step step = pack.steps().get(id);
    if (step.isAttempt()) {
      forget(new Reach(pack, innards.attempt(step)));
    }
  }

  private void forget(Reach moved) {
    for (Symptom symptom : pack.symptoms().values()) {
      if (symptom.shows().filter(moved::reaches).isPresent()) {
        sittings.put(symptom.id(), new Sitting(symptom.provokes()));
      }
    }
    for (Step step : pack.steps().values()) {
      if (moved.reaches(step)) {
        Sitting sitting = new Sitting(step.provokes());
        sittings.put(step.id(), sitting);
        for (Point point : points(step)) {
          if (moved.reaches(point)) {
            probings.put(point.id(), new Probing(sitting.acting));
          }
        }
      }
    }
  }
}
