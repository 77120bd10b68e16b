package org.faultwright.planning;

import static org.faultwright.oracle.PackSketch.cause;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.faultwright.casefile.Situation;
import org.faultwright.compile.LikelyWorlds;
import org.faultwright.oracle.PackSketch;
import org.faultwright.oracle.StepSketch;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Pack;

/** A device with exactly one of two causes, as likely as not, and what is asked about it. */
final class TwoCauses {

  static final Shop SEND_ON_FOR_40 = Bench.sendingOnFor(40);

  private TwoCauses() {}

  /** Exactly one of two causes; repairs for 10 and 8 minutes; a test of cause a for 1 minute. */
  static PackSketch sketch() {
    return new PackSketch("test/two-causes")
        .prior("a", 0.5)
        .prior("b", 0.5)
        .oneOf("either", true, "a", "b")
        .any("lost", cause("a", 1), cause("b", 1))
        .complaint("complaint", "lost")
        .step(Bench.costing(new StepSketch("repair-a").changes("a", 1, 0).build(), 10))
        .step(Bench.costing(new StepSketch("repair-b").changes("b", 1, 0).build(), 8))
        .step(
            Bench.costing(
                new StepSketch("test").looksAt(new CauseId("a"), 1, 0).copies(0.25).build(), 1));
  }

  static LikelyWorlds evens() {
    Map<String, Double> p = new LinkedHashMap<>();
    p.put("a", 0.5);
    p.put("b", 0.5);
    return Bench.single(p);
  }

  static Weighing look(Pack pack, Permissions permissions) {
    return look(pack, Bench.reported(pack, "complaint"), permissions);
  }

  static Weighing look(Pack pack, Situation now, Permissions permissions) {
    return Planner.of(DeviceModel.of(pack), SEND_ON_FOR_40)
        .look(evens(), now, Bench.INTAKE, permissions);
  }

  static RepairWay way(Weighing weighing, String repair) {
    return weighing.repairs().stream()
        .filter(w -> w.repair().value().equals(repair))
        .findFirst()
        .orElseThrow();
  }

  static List<String> tests(Weighing weighing) {
    return weighing.tests().stream().map(w -> w.step().value()).toList();
  }

  static List<String> repairs(Weighing weighing) {
    return weighing.repairs().stream().map(w -> w.repair().value()).toList();
  }
}
