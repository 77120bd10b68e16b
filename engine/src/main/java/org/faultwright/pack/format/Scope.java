package org.faultwright.pack.format;

import java.util.Optional;
import java.util.function.Consumer;
import org.faultwright.pack.Basis;
import org.faultwright.pack.yaml.YamlNode.YamlScalar;
import org.faultwright.problem.Problem;
import org.faultwright.problem.Span;

/**
 * Where in a file a value is being read: whose it is, under which key, on what basis numbers rest
 * there, which ids there are, and where problems go. Immutable, apart from the taker of problems.
 */
public final class Scope {

  private final Names names;
  private final Consumer<Problem> problems;
  private final String owner;
  private final String key;
  private final Optional<Span> place;
  private final Optional<Basis> basis;

  private Scope(
      Names names,
      Consumer<Problem> problems,
      String owner,
      String key,
      Optional<Span> place,
      Optional<Basis> basis) {
    this.names = names;
    this.problems = problems;
    this.owner = owner;
    this.key = key;
    this.place = place;
    this.basis = basis;
  }

  /** The outermost scope of a file. */
  public static Scope of(String owner, Names names, Consumer<Problem> problems) {
    return new Scope(names, problems, owner, owner, Optional.empty(), Optional.empty());
  }

  /** The scope of something with an id, for example {@code step 'bend-check'}. */
  public Scope of(Kind kind, YamlScalar id) {
    return new Scope(
        names,
        problems,
        kind.word() + " '" + id.shortened() + "'",
        id.shortened(),
        Optional.of(id.at()),
        basis);
  }

  /** The scope of something that has no id. */
  public Scope of(String newOwner) {
    return new Scope(names, problems, newOwner, key, Optional.empty(), basis);
  }

  /** The scope of the value of a key. */
  public Scope at(YamlScalar newKey) {
    return new Scope(names, problems, owner, newKey.shortened(), Optional.of(newKey.at()), basis);
  }

  /** The scope of a value that is called by another key. */
  public Scope at(String newKey) {
    return new Scope(names, problems, owner, newKey, place, basis);
  }

  /** The same scope with numbers resting on something else. */
  public Scope on(Optional<Basis> newBasis) {
    return new Scope(names, problems, owner, key, place, newBasis);
  }

  /** The same scope with problems going somewhere else. */
  public Scope reportingTo(Consumer<Problem> taker) {
    return new Scope(names, taker, owner, key, place, basis);
  }

  /** The ids there are. */
  public Names names() {
    return names;
  }

  /** Whose value it is, for example {@code step 'bend-check'}. */
  public String owner() {
    return owner;
  }

  /** The key it stands under. */
  public String key() {
    return key;
  }

  /** Where that key stands; empty: there is none. */
  public Optional<Span> place() {
    return place;
  }

  /** What numbers rest on here; empty: nothing has been said. */
  public Optional<Basis> basis() {
    return basis;
  }

  /** Reports an error. */
  public void error(FormatRule rule, Span at, String message, String wayOut) {
    problems.accept(Problem.error(rule.id(), at, message, wayOut));
  }

  /** Reports an error with an id that is not one of the rules'. */
  public void error(String id, Span at, String message, String wayOut) {
    problems.accept(Problem.error(id, at, message, wayOut));
  }

  /** Reports something that its author should look at, with an id that is not one of the rules'. */
  public void warning(String id, Span at, String message, String wayOut) {
    problems.accept(Problem.warning(id, at, message, wayOut));
  }

  /** Reports something that its author should look at. */
  public void warning(FormatRule rule, Span at, String message, String wayOut) {
    problems.accept(Problem.warning(rule.id(), at, message, wayOut));
  }
}
