package org.faultwright.compile;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Complaint;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Id;
import org.faultwright.pack.Lineage;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;
import org.faultwright.pack.Symptom;

/** Which observations a network has to hold. */
final class Slots {

  private Slots() {}

  /** Something observable with the causes that can move it. */
  record Candidate(Id what, Set<CauseId> ancestors) {}

  /** Everything of a pack that can be observed now: symptoms, steps with outcomes, points. */
  static List<Candidate> candidates(Pack pack, Lineage lineage) {
    List<Candidate> all = new ArrayList<>();
    for (Symptom s : pack.symptoms().values()) {
      s.shows()
          .ifPresent(o -> all.add(new Candidate(s.id(), lineage.ancestors(Lineage.looksAt(o)))));
    }
    for (Step s : pack.steps().values()) {
      if (s.shows().isPresent()) {
        all.add(new Candidate(s.id(), lineage.ancestors(s)));
      }
      for (Point p : s.pinTable().map(Step.PinTable::points).orElse(List.of())) {
        all.add(new Candidate(p.id(), lineage.ancestors(p)));
      }
    }
    return all;
  }

  /** As many causes an observation may have at most to be held by every network. */
  private static final int NARROW = 3;

  /**
   * The observations that every network holds, so that a fact about one of them needs no new
   * network: those of a few causes. They make a network longer, not wider.
   */
  static List<Candidate> alwaysHeld(Pack pack, Lineage lineage) {
    return candidates(pack, lineage).stream().filter(c -> c.ancestors().size() <= NARROW).toList();
  }

  /** The reports of all complaints whose causes state shares; else of all complaints. */
  static Set<Slot> reports(Pack pack) {
    Set<Slot> slots = new LinkedHashSet<>();
    for (Complaint c : pack.complaints().values()) {
      if (pack.causes().values().stream()
          .anyMatch(
              x ->
                  x.likelihood() instanceof org.faultwright.pack.Cause.Likelihood.Share s
                      && s.of().equals(c.id()))) {
        slots.add(report(c.id()));
      }
    }
    return slots;
  }

  /** Marks the slot of a lost function once nothing is hidden any longer. */
  static final int LATER = 1;

  /** The function of a complaint, lost once nothing that the last attempt hid is hidden. */
  static Slot comesBack(ComplaintId complaint, int epoch) {
    return new Slot(complaint, epoch, LATER);
  }

  static Slot report(ComplaintId complaint) {
    return new Slot(complaint, 0, 0);
  }

  /**
   * The slots that a case needs: what its facts are bound to, and what is always held, as it is
   * now.
   */
  static Set<Slot> of(Pack pack, Bound.Facts facts, List<Candidate> alwaysHeld) {
    Set<Slot> slots = new LinkedHashSet<>(reports(pack));
    for (Candidate c : alwaysHeld) {
      slots.add(now(pack, facts, c));
    }
    slots.addAll(observed(facts));
    return slots;
  }

  /** The slots that facts are bound to. */
  static Set<Slot> observed(Bound.Facts facts) {
    Set<Slot> slots = new LinkedHashSet<>();
    for (Bound b : facts.bound()) {
      if (b instanceof Bound.Report r) {
        slots.add(report(r.complaint()));
      } else if (b instanceof Bound.SymptomAt s) {
        slots.add(s.slot());
      } else if (b instanceof Bound.OutcomeAt o) {
        slots.add(o.slot());
      } else if (b instanceof Bound.RepeatAt r && r.pCopies() < 1) {
        slots.add(r.slot());
      } else if (b instanceof Bound.ReadingAt r) {
        slots.add(r.slot());
        r.compared()
            .ifPresent(
                slot -> {
                  slots.add(slot);
                  PointId other = r.comparison().get().compares().get().other(r.point().id());
                  slots.add(new Slot(other, slot.epoch(), 0));
                });
      }
    }
    return slots;
  }

  /** The slot of the next observation of something. */
  static Slot now(Pack pack, Bound.Facts facts, Candidate c) {
    Timeline timeline = facts.timeline();
    Slot first = new Slot(c.what(), timeline.settled(c.ancestors(), timeline.now()), 0);
    Step step = c.what() instanceof PointId ? null : pack.steps().get(c.what());
    return step == null || step.copies() == 1
        ? first
        : new Slot(c.what(), first.epoch(), facts.repeats().getOrDefault(first, 0));
  }
}
