package org.faultwright.oracle;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.SplittableRandom;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import org.faultwright.oracle.PackSketch.Input;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Event;
import org.faultwright.pack.EventId;
import org.faultwright.pack.ModeId;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Pack;

/**
 * Draws small packs at random, each with a complaint and a few causes, events and steps. They are
 * as a pack may be: rates are not below false alarms, rows sum to 1, a complaint has no otherwise.
 */
public final class RandomPacks {

  /** What random packs provoke besides looking at rest. */
  static final ModeId BENT = new ModeId("bent");

  /** The complaint that every random pack has. */
  static final String COMPLAINT = "complaint-a";

  private final Dice dice;
  private final PackSketch sketch = new PackSketch("random-family/random-pack");
  private final List<String> causes = new ArrayList<>();
  private final List<NodeId> nodes = new ArrayList<>();
  private final List<String> grouped = new ArrayList<>();

  /** A cause with a small share cannot follow a cause with a large one too often. */
  private double mostFollows = 1;

  private RandomPacks(Dice dice) {
    this.dice = dice;
  }

  /** Random packs whose causes state priors. */
  public static Arbitrary<Pack> packs(Set<PackFeature> features) {
    return Arbitraries.randomValue(
        random -> draw(new SplittableRandom(random.nextLong()), features));
  }

  /** A random pack whose causes state priors. */
  public static Pack draw(SplittableRandom random, Set<PackFeature> features) {
    RandomPacks packs = new RandomPacks(new Dice(random, features));
    packs.causes(packs.dice.from(2, 5));
    packs.bonds();
    packs.events();
    packs.complaints();
    new RandomSteps(packs.dice, packs.sketch, packs.causes, packs.nodes).add();
    return packs.sketch.build();
  }

  /** Random packs whose causes state shares of one complaint. */
  public static Arbitrary<Pack> packsWithShares(Set<PackFeature> features) {
    return Arbitraries.randomValue(
        random -> drawWithShares(new SplittableRandom(random.nextLong()), features));
  }

  /**
   * A random pack whose causes state shares of one complaint that each of them can bring about; not
   * every such pack can reach its shares.
   */
  public static Pack drawWithShares(SplittableRandom random, Set<PackFeature> features) {
    RandomPacks packs = new RandomPacks(new Dice(random, features));
    packs.shares(packs.dice.from(2, 5));
    packs.mostFollows = 0.3;
    packs.bonds();
    packs.eventOfShares();
    new RandomSteps(packs.dice, packs.sketch, packs.causes, packs.nodes).add();
    return packs.sketch.build();
  }

  private static String letter(int i) {
    return String.valueOf((char) ('a' + i));
  }

  private void causes(int howMany) {
    int inGroup = groupSize(howMany);
    boolean certain = inGroup > 0 && dice.has(PackFeature.CERTAIN_GROUPS, 0.5);
    double[] ofGroup = dice.distribution(inGroup + (certain ? 0 : 1));
    for (int i = 0; i < howMany; i++) {
      String id = "cause-" + letter(i);
      causes.add(id);
      nodes.add(new CauseId(id));
      if (i < inGroup) {
        sketch.prior(id, ofGroup[i]);
        grouped.add(id);
      } else if (dice.has(PackFeature.FOLLOWS, 0.2) || dice.has(PackFeature.HARMS, 0.2)) {
        sketch.onlyCaused(id);
      } else {
        sketch.prior(id, dice.has(PackFeature.EXTREMES, 0.05) ? 0 : dice.between(0.03, 0.5));
      }
    }
    group(certain);
  }

  private int groupSize(int causes) {
    return dice.has(PackFeature.GROUPS, 0.4) ? dice.from(2, Math.min(3, causes)) : 0;
  }

  private void group(boolean certain) {
    if (!grouped.isEmpty()) {
      sketch.oneOf("group", certain, grouped.toArray(String[]::new));
    }
  }

  private void shares(int howMany) {
    int inGroup = groupSize(howMany);
    double[] shares = dice.distribution(howMany);
    for (int i = 0; i < howMany; i++) {
      String id = "cause-" + letter(i);
      causes.add(id);
      nodes.add(new CauseId(id));
      sketch.share(id, COMPLAINT, shares[i]);
      if (i < inGroup) {
        grouped.add(id);
      }
    }
    group(inGroup == howMany && dice.has(PackFeature.CERTAIN_GROUPS, 0.5));
  }

  /** History, what follows what, and what comes and goes. */
  private void bonds() {
    int histories = dice.has(PackFeature.HISTORY) ? dice.from(0, 2) : 0;
    for (int h = 0; h < histories; h++) {
      String history = "history-" + letter(h);
      if (dice.with(0.8)) {
        sketch.history(history, dice.between(0.05, 0.6), dice.large(), dice.small());
      } else {
        sketch.history(history, dice.between(0.05, 0.6));
      }
      for (String cause : causes) {
        if (dice.with(0.5)) {
          sketch.after(cause, history, dice.with(0.8) ? dice.from(2, 12) : 0.25);
        }
      }
    }
    for (int i = 1; i < causes.size(); i++) {
      String cause = causes.get(i);
      if (!grouped.contains(cause) && dice.has(PackFeature.FOLLOWS, 0.35)) {
        for (String root : dice.someOf(causes.subList(0, i), dice.with(0.8) ? 1 : 2)) {
          sketch.follows(cause, root, Math.min(dice.p(), mostFollows));
        }
      }
    }
    for (String cause : causes) {
      if (dice.has(PackFeature.COMES_AND_GOES, 0.3)) {
        sketch.comesAndGoes(cause, dice.between(0.1, 0.9));
        if (dice.with(0.6)) {
          sketch.comesAndGoes(cause, BENT, dice.large());
        }
      }
    }
  }

  private void events() {
    int howMany = dice.from(1, 3);
    for (int e = 0; e < howMany; e++) {
      event("event-" + letter(e), dice.has(PackFeature.OTHERWISE, 0.4) ? dice.small() : 0, nodes);
      nodes.add(new EventId("event-" + letter(e)));
    }
  }

  private void event(String id, double otherwise, List<NodeId> from) {
    List<NodeId> inputs = dice.someOf(from, dice.from(1, Math.min(4, from.size())));
    sketch.event(id, combination(inputs.size()), otherwise, strengths(inputs));
  }

  private Input[] strengths(List<NodeId> inputs) {
    return inputs.stream().map(n -> new Input(n, dice.strength())).toArray(Input[]::new);
  }

  private Event.Combination combination(int inputs) {
    if (dice.has(PackFeature.COMBINATIONS, 0.5)) {
      return switch (dice.from(0, 2)) {
        case 0 -> new Event.Combination.All();
        case 1 -> new Event.Combination.AtLeast(dice.from(1, inputs));
        default -> new Event.Combination.None();
      };
    }
    return new Event.Combination.Any();
  }

  /** A complaint whose event each cause can bring about, some of them by way of another event. */
  private void eventOfShares() {
    List<NodeId> above = new ArrayList<>(nodes);
    if (causes.size() > 2) {
      List<NodeId> below = dice.someOf(nodes, 2);
      Event.Combination how =
          dice.has(PackFeature.COMBINATIONS, 0.3)
              ? new Event.Combination.All()
              : new Event.Combination.Any();
      sketch.event("event-a", how, 0, strengths(below));
      if (how instanceof Event.Combination.Any) {
        above.removeAll(below);
      }
      above.add(new EventId("event-a"));
      nodes.add(new EventId("event-a"));
    }
    sketch.any("lost-a", strengths(above));
    nodes.add(new EventId("lost-a"));
    sketch.complaint(COMPLAINT, "lost-a", 0, dice.between(0.03, 0.3));
  }

  private void complaints() {
    List<NodeId> below = List.copyOf(nodes);
    complaint(COMPLAINT, "lost-a", below);
    if (dice.has(PackFeature.COMPLAINTS, 0.4)) {
      complaint("complaint-b", "lost-b", below);
    }
  }

  private void complaint(String id, String event, List<NodeId> below) {
    event(event, 0, below);
    nodes.add(new EventId(event));
    sketch.complaint(id, event, dice.has(PackFeature.COMPLAINTS, 0.5) ? dice.small() : 0, 0.05);
  }
}
