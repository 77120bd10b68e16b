package org.faultwright.casefile;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.faultwright.pack.PackId;

/**
 * One job: what was settled at intake, the facts in the order in which they were told, and, for a
 * pack's own cases, what is expected to come out. Immutable.
 *
 * @param name the case's own name
 * @param title what it is about, where it says so
 * @param pack the pack that it is diagnosed with
 * @param packVersion the version that it was written for, where it says so
 */
public record CaseFile(
    String name,
    Optional<String> title,
    PackId pack,
    Optional<String> packVersion,
    Intake intake,
    List<Told> facts,
    Optional<Expectation> expectation) {

  /** Copies the list. */
  public CaseFile {
    facts = List.copyOf(facts);
  }

  /** A case about which nothing is known yet. */
  public static CaseFile empty(PackId pack, Intake intake) {
    return new CaseFile(
        "unnamed", Optional.empty(), pack, Optional.empty(), intake, List.of(), Optional.empty());
  }

  /** A case of this name that begins now, with this version of the pack. */
  public static CaseFile begun(String name, PackId pack, String packVersion) {
    return new CaseFile(
        name,
        Optional.empty(),
        pack,
        Optional.of(packVersion),
        Intake.PLAIN,
        List.of(),
        Optional.empty());
  }

  /** This case with something else settled at intake. */
  public CaseFile withIntake(Intake other) {
    return new CaseFile(name, title, pack, packVersion, other, facts, expectation);
  }

  /** This case without what it expects to come out. */
  public CaseFile expectingNothing() {
    return new CaseFile(name, title, pack, packVersion, intake, facts, Optional.empty());
  }

  /** This case with one more fact, numbered after the last one. */
  public CaseFile with(Fact fact) {
    List<Told> more = new ArrayList<>(facts);
    int next = facts.isEmpty() ? 1 : facts.get(facts.size() - 1).id().number() + 1;
    more.add(new Told(new FactId(next), Optional.empty(), fact));
    return new CaseFile(name, title, pack, packVersion, intake, more, expectation);
  }

  /** This case as if the fact had never been told; the other facts keep their numbers. */
  public CaseFile without(FactId id) {
    List<Told> fewer = new ArrayList<>(facts);
    fewer.removeIf(t -> t.id().equals(id));
    return new CaseFile(name, title, pack, packVersion, intake, fewer, expectation);
  }
}
