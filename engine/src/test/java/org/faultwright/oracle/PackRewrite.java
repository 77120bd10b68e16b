package org.faultwright.oracle;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.UnaryOperator;
import org.faultwright.casefile.Fact;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Chance;
import org.faultwright.pack.Change;
import org.faultwright.pack.Comparison;
import org.faultwright.pack.Complaint;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Event;
import org.faultwright.pack.EventId;
import org.faultwright.pack.GroupId;
import org.faultwright.pack.Harm;
import org.faultwright.pack.History;
import org.faultwright.pack.HistoryId;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OneOf;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PackDraft;
import org.faultwright.pack.Part;
import org.faultwright.pack.PartId;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.Symptom;
import org.faultwright.pack.SymptomId;

/**
 * Says the same as a pack in other words: with other ids, with its declarations in reverse order,
 * with a member of a group split in two. What bears on probabilities is kept; the rest is dropped.
 */
public final class PackRewrite {

  /**
   * A member of a group that is split.
   *
   * @param part of its prior that the first half has, in (0, 1)
   */
  public record Split(CauseId cause, CauseId first, CauseId second, double part) {}

  private final Pack pack;
  private final UnaryOperator<String> rename;
  private final boolean reversed;
  private final Optional<Split> split;

  private PackRewrite(
      Pack pack, UnaryOperator<String> rename, boolean reversed, Optional<Split> split) {
    this.pack = pack;
    this.rename = rename;
    this.reversed = reversed;
    this.split = split;
  }

  /** With other ids, and every declaration in reverse order whose order is not part of it. */
  public static PackRewrite renamed(Pack pack, UnaryOperator<String> rename, boolean reversed) {
    return new PackRewrite(pack, rename, reversed, Optional.empty());
  }

  /**
   * With a cause split in two.
   *
   * <p>The cause must be the member of a group, state a prior, not be needed by an event that needs
   * all of its inputs, and no step may do it as harm.
   */
  public static PackRewrite split(Pack pack, Split split) {
    return new PackRewrite(pack, id -> id, false, Optional.of(split));
  }

  /** The cause under its new name; the first half of the one that is split. */
  public CauseId of(CauseId cause) {
    return all(cause).get(0);
  }

  /** The event under its new name. */
  public EventId of(EventId event) {
    return new EventId(rename.apply(event.value()));
  }

  /** The step under its new name. */
  public StepId of(StepId step) {
    return new StepId(rename.apply(step.value()));
  }

  private List<CauseId> all(CauseId cause) {
    if (split.isPresent() && split.get().cause().equals(cause)) {
      return List.of(split.get().first(), split.get().second());
    }
    return List.of(new CauseId(rename.apply(cause.value())));
  }

  private List<? extends NodeId> all(NodeId node) {
    return node instanceof CauseId cause ? all(cause) : List.of(of((EventId) node));
  }

  private <T> Collection<T> ordered(Collection<T> declared) {
    List<T> list = new ArrayList<>(declared);
    if (reversed) {
      Collections.reverse(list);
    }
    return list;
  }

  private <K extends NodeId, V> Map<NodeId, V> nodes(Map<K, V> map) {
    Map<NodeId, V> result = new LinkedHashMap<>();
    for (K key : ordered(map.keySet())) {
      all(key).forEach(k -> result.put(k, map.get(key)));
    }
    return result;
  }

  private <V> Map<CauseId, V> causes(Map<CauseId, V> map) {
    Map<CauseId, V> result = new LinkedHashMap<>();
    for (CauseId key : ordered(map.keySet())) {
      all(key).forEach(k -> result.put(k, map.get(key)));
    }
    return result;
  }

  private Set<CauseId> causes(Collection<CauseId> causes) {
    Set<CauseId> result = new LinkedHashSet<>();
    ordered(causes).forEach(c -> result.addAll(all(c)));
    return result;
  }

  /** The pack in other words. */
  public Pack pack() {
    PackDraft draft = new PackDraft(pack.id());
    pack.instruments().values().forEach(draft::instrument);
    ordered(pack.histories().values()).forEach(h -> draft.history(history(h)));
    ordered(pack.causes().values()).forEach(c -> all(c.id()).forEach(id -> cause(draft, c, id)));
    ordered(pack.groups().values())
        .forEach(g -> draft.group(new OneOf(group(g.id()), g.certain(), causes(g.members()))));
    ordered(pack.events().values()).forEach(e -> draft.event(event(e)));
    ordered(pack.complaints().values()).forEach(c -> draft.complaint(complaint(c)));
    ordered(pack.symptoms().values())
        .forEach(
            s ->
                draft.symptom(
                    new Symptom(
                        symptom(s.id()),
                        s.title(),
                        s.shows().map(this::shows),
                        s.overlooked(),
                        s.provokes())));
    ordered(pack.parts().values()).forEach(p -> draft.part(part(p)));
    ordered(pack.steps().values()).forEach(s -> draft.step(step(s)));
    return draft.build();
  }

  private HistoryId history(HistoryId id) {
    return new HistoryId(rename.apply(id.value()));
  }

  private GroupId group(GroupId id) {
    return new GroupId(rename.apply(id.value()));
  }

  private SymptomId symptom(SymptomId id) {
    return new SymptomId(rename.apply(id.value()));
  }

  private ComplaintId complaint(ComplaintId id) {
    return new ComplaintId(rename.apply(id.value()));
  }

  private PointId point(PointId id) {
    return new PointId(rename.apply(id.value()));
  }

  private PartId part(PartId id) {
    return new PartId(rename.apply(id.value()));
  }

  private History history(History h) {
    return new History(history(h.id()), h.title(), h.likely(), h.said(), h.seen());
  }

  private void cause(PackDraft draft, Cause c, CauseId id) {
    Map<HistoryId, Double> after = new LinkedHashMap<>();
    ordered(c.after().keySet()).forEach(h -> after.put(history(h), c.after().get(h)));
    draft.cause(
        new Cause(
            id,
            c.title(),
            c.kind(),
            likelihood(c, id),
            c.oneOf().map(this::group),
            after,
            causes(c.follows()),
            c.shows(),
            c.boards(),
            c.sendOn()));
  }

  private Cause.Likelihood likelihood(Cause c, CauseId id) {
    if (c.likelihood() instanceof Cause.Likelihood.Share s) {
      return new Cause.Likelihood.Share(complaint(s.of()), s.share());
    } else if (split.isPresent() && split.get().cause().equals(c.id())) {
      double part = split.get().first().equals(id) ? split.get().part() : 1 - split.get().part();
      Chance whole = ((Cause.Likelihood.Prior) c.likelihood()).chance();
      return new Cause.Likelihood.Prior(PackSketch.chance(whole.p() * part));
    }
    return c.likelihood();
  }

  private Event event(Event e) {
    Map<NodeId, Chance> inputs = nodes(e.inputs());
    if (e.combination() instanceof Event.Combination.All && inputs.size() > e.inputs().size()) {
      throw new IllegalArgumentException("all of exclusive causes: " + e.id());
    }
    return new Event(of(e.id()), e.title(), e.combination(), inputs, e.otherwise());
  }

  private Complaint complaint(Complaint c) {
    return new Complaint(
        complaint(c.id()),
        c.title(),
        of(c.event()),
        c.reportedByMistake(),
        c.rate(),
        c.countsClosed());
  }

  private Observation shows(Observation shows) {
    if (shows instanceof Observation.OfNode o) {
      List<? extends NodeId> nodes = all(o.node());
      if (nodes.size() == 1) {
        return new Observation.OfNode(
            nodes.get(0), o.catches(), o.criesWolf(), o.positive(), o.negative());
      }
      Map<NodeId, Chance> rates = new LinkedHashMap<>();
      nodes.forEach(n -> rates.put(n, o.catches()));
      return new Observation.OfNodes(rates, o.criesWolf(), o.positive(), o.negative());
    } else if (shows instanceof Observation.OfNodes o) {
      return new Observation.OfNodes(nodes(o.rates()), o.criesWolf(), o.positive(), o.negative());
    } else if (shows instanceof Observation.OfTable o) {
      return table(o);
    }
    Observation.OfStates o = (Observation.OfStates) shows;
    return new Observation.OfStates(
        o.states().stream()
            .map(s -> new Observation.TrueState(s.id(), nodes(s.triggers())))
            .toList(),
        o.outcomes(),
        o.rows());
  }

  /** A split cause has two columns: its old column is true where one of them is. */
  private Observation table(Observation.OfTable o) {
    List<NodeId> given = new ArrayList<>();
    o.given().forEach(n -> given.addAll(all(n)));
    Map<List<Boolean>, List<Chance>> rows = new LinkedHashMap<>();
    for (int r = 0; r < 1 << given.size(); r++) {
      List<Boolean> when = new ArrayList<>();
      for (int i = 0; i < given.size(); i++) {
        when.add((r >> i & 1) == 1);
      }
      List<Boolean> before = new ArrayList<>();
      o.given().forEach(n -> before.add(all(n).stream().anyMatch(x -> when.get(given.indexOf(x)))));
      rows.put(when, o.rows().get(before));
    }
    return new Observation.OfTable(given, o.outcomes(), rows);
  }

  private Part part(Part p) {
    return new Part(
        part(p.id()),
        p.title(),
        causes(p.carries()),
        p.price(),
        p.paired(),
        p.leadTime(),
        p.reseats().stream().map(this::of).toList(),
        p.leaves(),
        p.afterwards(),
        of(p.bad()));
  }

  private Step step(Step s) {
    StepSketch sketch = new StepSketch(rename.apply(s.id().value()));
    s.shows().ifPresent(o -> sketch.shows(shows(o)));
    s.proves().ifPresent(c -> sketch.proves(complaint(c)));
    s.compares()
        .ifPresent(
            c ->
                sketch.compares(
                    new Comparison(
                        point(c.point()), point(c.with()), c.differsBy(), c.ofReference())));
    sketch.provokes(s.provokes()).copies(s.copies());
    s.pinTable().ifPresent(t -> ordered(t.points()).forEach(p -> sketch.reads(point(p))));
    s.pinTable().flatMap(t -> t.instrument()).ifPresent(i -> sketch.instrument(i.value()));
    for (Map.Entry<CauseId, Change> change : causes(s.changes()).entrySet()) {
      sketch.changes(
          change.getKey().value(), change.getValue().cures().p(), change.getValue().hides().p());
    }
    s.swap().ifPresent(swap -> sketch.swaps(part(swap.part()).value(), swap.donorGood().p()));
    for (Harm harm : ordered(s.mayCause())) {
      sketch.mayCause(of(harm.cause()).value(), harm.chance().p());
    }
    if (s.repeatable()) {
      sketch.repeatable();
    }
    return sketch.build();
  }

  private Point point(Point p) {
    return new Point(
        point(p.id()),
        p.title(),
        p.pin(),
        p.reference(),
        p.basis(),
        p.states().stream()
            .map(s -> new Point.ReadingState(s.id(), nodes(s.triggers()), s.lies()))
            .toList(),
        p.boards());
  }

  /** The same fact in other words. */
  public Fact fact(Fact fact) {
    if (fact instanceof Fact.Complained f) {
      return new Fact.Complained(complaint(f.complaint()), f.reported());
    } else if (fact instanceof Fact.HistorySaid f) {
      return new Fact.HistorySaid(history(f.history()), f.happened());
    } else if (fact instanceof Fact.HistorySeen f) {
      return new Fact.HistorySeen(history(f.history()), f.traces());
    } else if (fact instanceof Fact.SymptomNoted f) {
      return new Fact.SymptomNoted(symptom(f.symptom()), f.value());
    } else if (fact instanceof Fact.OutcomeSeen f) {
      return new Fact.OutcomeSeen(of(f.step()), f.outcome());
    } else if (fact instanceof Fact.ReadingTaken f) {
      return new Fact.ReadingTaken(point(f.point()), f.value(), f.uncertainty(), f.setup());
    } else if (fact instanceof Fact.StepDone f) {
      return new Fact.StepDone(of(f.step()), f.part());
    } else if (fact instanceof Fact.CouldNotDo f) {
      return new Fact.CouldNotDo(of(f.step()), f.why());
    }
    return fact;
  }
}
