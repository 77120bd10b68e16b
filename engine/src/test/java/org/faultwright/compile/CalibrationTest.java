package org.faultwright.compile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.faultwright.oracle.PackSketch.cause;
import static org.faultwright.oracle.PackSketch.event;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.SplittableRandom;
import org.faultwright.casefile.Fact;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.measurement.Reference;
import org.faultwright.oracle.BenchSimulator;
import org.faultwright.oracle.Device;
import org.faultwright.oracle.Facts;
import org.faultwright.oracle.Meter;
import org.faultwright.oracle.PackSketch;
import org.faultwright.oracle.StepSketch;
import org.faultwright.pack.Basis;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.HistoryId;
import org.faultwright.pack.InstrumentId;
import org.faultwright.pack.ModeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.StateId;
import org.faultwright.pack.StepId;
import org.faultwright.pack.SymptomId;
import org.junit.jupiter.api.Test;

/**
 * Of all causes that were given probability q, q are present. Oracle: simulated devices with the
 * complaint, 20,000 of them, on which tests are made and repairs are tried.
 */
class CalibrationTest {

  private static final int DEVICES = 20_000;
  private static final int BINS = 12;
  private static final double STANDARD_ERRORS = 3;
  private static final ModeId BENT = new ModeId("bent");
  private static final ComplaintId DARK = new ComplaintId("lamp-dark");
  private static final HistoryId LIQUID = new HistoryId("liquid");
  private static final SymptomId STAINS = new SymptomId("stains");
  private static final PointId DRIVE = new PointId("drive");
  private static final StepId SWITCH_ON = new StepId("switch-on");
  private static final List<StepId> TESTS =
      List.of(new StepId("bend-flex"), new StepId("look-inside"), new StepId("pin-table"));
  private static final Map<String, String> REPAIR_OF =
      Map.of(
          "flex-cracked", "swap-flex",
          "flex-unseated", "reseat-flex",
          "socket-corroded", "clean-socket",
          "driver-failed", "rework-driver",
          "driver-shorted", "rework-driver");

  /** Uncertainty of a reading, in volts. */
  private static final double U = 0.01;

  private final Pack pack = lamp();
  private final CompiledPack compiled = (CompiledPack) CompiledPack.compile(pack);
  private final Map<List<Fact>, Map<CauseId, Double>> believed = new HashMap<>();

  /** An invented family. */
  private static Pack lamp() {
    return new PackSketch("wren-handset/lamp")
        .history("liquid", 0.15, 0.6, 0.05)
        .share("flex-cracked", "lamp-dark", 0.22)
        .comesAndGoes("flex-cracked", 0.4)
        .comesAndGoes("flex-cracked", BENT, 0.9)
        .share("flex-unseated", "lamp-dark", 0.18)
        .share("socket-corroded", "lamp-dark", 0.15)
        .after("socket-corroded", "liquid", 9)
        .share("driver-failed", "lamp-dark", 0.25)
        .after("driver-failed", "liquid", 3)
        .share("driver-shorted", "lamp-dark", 0.1)
        .share("unlisted", "lamp-dark", 0.1)
        .onlyCaused("screen-scratched")
        .oneOf("driver", false, "driver-failed", "driver-shorted")
        .any(
            "line-open",
            cause("flex-cracked", 1),
            cause("flex-unseated", 1),
            cause("socket-corroded", 0.7))
        .any(
            "no-light",
            event("line-open", 1),
            cause("driver-failed", 0.9),
            cause("driver-shorted", 1),
            cause("unlisted", 1))
        .complaint("lamp-dark", "no-light", 0.01, 0.2)
        .symptom("stains", looksAt("socket-corroded", 0.7, 0.1), 0.5)
        .part("flex", Set.of("flex-cracked", "flex-unseated"), "clean-socket")
        .exactInstrument("bench-meter")
        .step(
            new StepSketch("bend-flex")
                .looksAt(new org.faultwright.pack.EventId("line-open"), 0.95, 0.02)
                .provokes(BENT)
                .copies(0.6))
        .step(new StepSketch("look-inside").shows(places()))
        .step(new StepSketch("pin-table").reads(drive()))
        .step(
            new StepSketch("reseat-flex")
                .changes("flex-unseated", 0.85, 0)
                .changes("socket-corroded", 0.1, 0.5)
                .mayCause("flex-cracked", 0.02))
        .step(new StepSketch("clean-socket").changes("socket-corroded", 0.8, 0).repeatable())
        .step(
            new StepSketch("rework-driver")
                .changes("driver-failed", 0.75, 0)
                .changes("driver-shorted", 0.75, 0)
                .mayCause("screen-scratched", 0.05))
        .step(new StepSketch("swap-flex").swaps("flex", 0.93))
        .step(new StepSketch("switch-on").proves("lamp-dark", "no-light", 0.98, 0.01))
        .build();
  }

  private static Observation looksAt(String cause, double catches, double criesWolf) {
    return new Observation.OfNode(
        new CauseId(cause),
        PackSketch.chance(catches),
        PackSketch.chance(criesWolf),
        OutcomeId.POSITIVE,
        OutcomeId.NEGATIVE);
  }

  private static Observation places() {
    OutcomeId flex = new OutcomeId("flex");
    OutcomeId board = new OutcomeId("board");
    OutcomeId nothing = new OutcomeId("nothing");
    StateId flexOff = new StateId("flex-off");
    StateId boardMarked = new StateId("board-marked");
    return new Observation.OfStates(
        List.of(
            new Observation.TrueState(flexOff, PackSketch.inputs(cause("flex-unseated", 0.8))),
            new Observation.TrueState(
                boardMarked,
                PackSketch.inputs(cause("driver-shorted", 0.6), cause("socket-corroded", 0.3)))),
        List.of(flex, board, nothing),
        Map.of(
            flexOff,
            Map.of(
                flex, PackSketch.chance(0.9),
                board, PackSketch.chance(0.02),
                nothing, PackSketch.chance(0.08)),
            boardMarked,
            Map.of(
                flex, PackSketch.chance(0.05),
                board, PackSketch.chance(0.8),
                nothing, PackSketch.chance(0.15)),
            StateId.NORMAL,
            Map.of(
                flex, PackSketch.chance(0.03),
                board, PackSketch.chance(0.04),
                nothing, PackSketch.chance(0.93))));
  }

  private static Point drive() {
    return new Point(
        DRIVE,
        "drive",
        Optional.empty(),
        around(0.6, 0.05),
        new Basis.Invented(),
        List.of(
            new Point.ReadingState(
                new StateId("shorted"),
                PackSketch.inputs(cause("driver-shorted", 1)),
                Optional.of(around(0.3, 0.3))),
            new Point.ReadingState(
                new StateId("raised"),
                PackSketch.inputs(cause("driver-failed", 0.7), event("line-open", 0.9)),
                Optional.of(around(0.75, 0.2)))),
        Set.of());
  }

  private static Reference.Around around(double nominal, double tolerance) {
    return new Reference.Around(Dimension.VOLTAGE, nominal, tolerance);
  }

  /**
   * Draws readings as {@code ReadingModel} says: a true value within the tolerance 95 times in 100,
   * noise, and one reading in two hundred that is not one of this point.
   */
  private static final class BenchMeter implements Meter {
    @Override
    public double trueValue(Point point, int state, SplittableRandom random) {
      Reference.Around lies =
          (Reference.Around)
              (state == 0 ? point.reference() : point.states().get(state - 1).lies().orElseThrow());
      return lies.nominal() + lies.tolerance() / 2 * random.nextGaussian();
    }

    @Override
    public ReadingValue read(Point point, double trueValue, SplittableRandom random) {
      if (random.nextDouble() >= 0.005) {
        return volts(trueValue + U * random.nextGaussian());
      }
      double kind = random.nextDouble();
      if (kind < 0.5) {
        return new ReadingValue.OverRange(Dimension.VOLTAGE);
      } else if (kind < 0.75) {
        int any = random.nextInt(point.states().size() + 1);
        return volts(trueValue(point, any, random) + U * random.nextGaussian());
      }
      double centre = ((Reference.Around) point.reference()).nominal();
      return volts(centre + centre * Math.tan(Math.PI * (random.nextDouble() - 0.5)));
    }

    private static ReadingValue volts(double v) {
      return new ReadingValue.Measured(new Quantity(v, Dimension.VOLTAGE));
    }
  }

  /** How often causes that were given about the same probability were present. */
  private static final class Tally {
    private final double[] expected = new double[BINS];
    private final double[] variance = new double[BINS];
    private final int[] present = new int[BINS];
    private final int[] count = new int[BINS];

    void add(double q, boolean isPresent) {
      int bin = Math.min(BINS - 1, (int) (q * BINS));
      expected[bin] += q;
      variance[bin] += q * (1 - q);
      present[bin] += isPresent ? 1 : 0;
      count[bin]++;
    }

    void holds() {
      for (int bin = 0; bin < BINS; bin++) {
        assertThat(count[bin]).as("causes in bin %d", bin).isPositive();
        assertThat((present[bin] - expected[bin]) / Math.sqrt(variance[bin]))
            .as(
                "%d causes in bin %d: %d present, %f expected"
                    .formatted(count[bin], bin, present[bin], expected[bin]))
            .isBetween(-STANDARD_ERRORS, STANDARD_ERRORS);
      }
    }
  }

  @Test
  void causesArePresentAsOftenAsBelieved_whenDevicesAreTestedAndRepaired() {
    SplittableRandom random = new SplittableRandom(20_251);
    BenchSimulator bench =
        new BenchSimulator(pack, compiled.priors(), new BenchMeter(), random.split());
    Tally tested = new Tally();
    Tally repaired = new Tally();
    int cases = 0;
    while (cases < DEVICES) {
      Device device = bench.draw();
      if (device.reports(DARK)) {
        cases++;
        List<Fact> facts = new ArrayList<>(List.of(new Fact.Complained(DARK, true)));
        test(device, facts, random);
        tally(device, facts, tested);
        repair(device, facts);
        tally(device, facts, repaired);
      }
    }
    tested.holds();
    repaired.holds();
  }

  private void test(Device device, List<Fact> facts, SplittableRandom random) {
    if (random.nextInt(2) == 0) {
      facts.add(new Fact.HistorySaid(LIQUID, device.says(LIQUID)));
    }
    if (random.nextInt(3) == 0) {
      facts.add(new Fact.SymptomNoted(STAINS, device.looksClosely(STAINS)));
    }
    int tests = random.nextInt(3);
    for (int t = 0; t < tests; t++) {
      StepId step = TESTS.get(random.nextInt(TESTS.size()));
      if (pack.steps().get(step).shows().isPresent()) {
        facts.add(new Fact.OutcomeSeen(step, device.outcome(step)));
      } else if (facts.stream().noneMatch(f -> f instanceof Fact.ReadingTaken)) {
        // One reading only: the model takes a misread for the mean of several.
        facts.add(
            new Fact.ReadingTaken(
                DRIVE,
                device.read(DRIVE),
                OptionalDouble.of(U),
                new Fact.Setup(Optional.empty(), Optional.of(new InstrumentId("bench-meter")))));
      }
    }
  }

  /** Twice the repair of the likeliest cause, each time with a function test. */
  private void repair(Device device, List<Fact> facts) {
    for (int attempt = 0; attempt < 2; attempt++) {
      CauseId likeliest =
          believed(facts).entrySet().stream()
              .filter(e -> REPAIR_OF.containsKey(e.getKey().value()))
              .max(Map.Entry.comparingByValue())
              .orElseThrow()
              .getKey();
      StepId repair = new StepId(REPAIR_OF.get(likeliest.value()));
      device.doStep(repair);
      facts.add(new Fact.StepDone(repair, Optional.empty()));
      OutcomeId outcome = device.outcome(SWITCH_ON);
      facts.add(new Fact.OutcomeSeen(SWITCH_ON, outcome));
      if (outcome.value().equals("passed")) {
        return;
      }
    }
  }

  private void tally(Device device, List<Fact> facts, Tally tally) {
    believed(facts).forEach((cause, q) -> tally.add(q, device.has(cause)));
  }

  private Map<CauseId, Double> believed(List<Fact> facts) {
    return believed.computeIfAbsent(
        List.copyOf(facts), f -> ((Belief) compiled.belief(Facts.told(f))).causes());
  }
}
