package org.faultwright.diagnosis;

import java.util.Collections;
import java.util.Deque;
import java.util.IdentityHashMap;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ConcurrentLinkedDeque;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.Intake;
import org.faultwright.compile.CompiledPack;
import org.faultwright.compile.PackCompilation;
import org.faultwright.pack.Pack;
import org.faultwright.planning.DeviceModel;
import org.faultwright.planning.Planner;
import org.faultwright.planning.Shop;
import org.faultwright.rules.PackRules;
import org.faultwright.rules.RuleBase;

/**
 * Opens diagnoses. Each pack is compiled once. Safe for any number of threads; the diagnoses that
 * it opens are confined to one thread each.
 */
public final class Engine {

  private final Shop shop;
  // by identity: a pack is large, and hashing it would cost more than a step from fact to advice
  private final Map<Pack, PackCompilation> compiled =
      Collections.synchronizedMap(new IdentityHashMap<>());

  private final Map<CompiledPack, Ready> ready = new ConcurrentHashMap<>();

  /**
   * A pack made ready once for all cases.
   *
   * @param idle planners that no answer is being worked out with: what they have worked out serves
   *     the next answer, of this case or another
   */
  record Ready(
      CompiledPack compiled, DeviceModel device, PackRules rules, Deque<Planner> idle, Shop shop) {

    /** Planners that wait for the next answer, at most: one for each thread that can run. */
    private static final int MOST_IDLE = Runtime.getRuntime().availableProcessors();

    Planner borrowPlanner() {
      Planner warm = idle.pollFirst();
      return warm != null ? warm : Planner.of(device, shop);
    }

    void giveBack(Planner planner) {
      if (idle.size() < MOST_IDLE) {
        idle.addFirst(planner);
      }
    }
  }

  private Engine(Shop shop) {
    this.shop = shop;
  }

  /** An engine for a shop of which nothing is known. */
  public static Engine create() {
    return new Engine(Shop.ORDINARY);
  }

  /** An engine that weighs steps by the shop's own prices and rates. */
  public static Engine forShop(Shop shop) {
    return new Engine(shop);
  }

  /** The prices and rates that steps are weighed by. */
  public Shop shop() {
    return shop;
  }

  /** The pack, compiled; or why it cannot be. */
  public PackCompilation compile(Pack pack) {
    return compiled.computeIfAbsent(pack, CompiledPack::compile);
  }

  private Ready ready(CompiledPack usable) {
    return ready.computeIfAbsent(
        usable,
        c ->
            new Ready(
                c,
                DeviceModel.of(c.pack()),
                RuleBase.shared().forPack(c.pack()),
                new ConcurrentLinkedDeque<>(),
                shop));
  }

  /**
   * Opens a diagnosis of a device about which nothing is known yet.
   *
   * @throws IllegalArgumentException when the pack cannot be compiled
   */
  public Diagnosis open(Pack pack, Intake intake) {
    return resume(pack, CaseFile.empty(pack.id(), intake));
  }

  /**
   * Opens a diagnosis of a case as it stands.
   *
   * @throws IllegalArgumentException when the case is for another pack, speaks of what the pack
   *     does not have, or the pack cannot be compiled
   */
  public Diagnosis resume(Pack pack, CaseFile caseFile) {
    if (!caseFile.pack().equals(pack.id())) {
      throw new IllegalArgumentException(
          "case must be for pack " + pack.id() + ": " + caseFile.pack());
    }
    PackCompilation result = compile(pack);
    if (result instanceof CompiledPack usable) {
      return new Diagnosis(ready(usable.onBoard(caseFile.intake().board())), caseFile);
    } else if (result instanceof PackCompilation.SharesUnattainable s) {
      throw new IllegalArgumentException(
          "shares of complaint " + s.complaint() + " must be attainable at its rate: " + pack.id());
    }
    PackCompilation.TooWide wide = (PackCompilation.TooWide) result;
    throw new IllegalArgumentException(
        "pack must compile within "
            + wide.budget()
            + " table entries: "
            + pack.id()
            + " takes "
            + wide.predicted());
  }
}
