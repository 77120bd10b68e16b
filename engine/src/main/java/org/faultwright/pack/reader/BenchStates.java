package org.faultwright.pack.reader;

import java.util.List;
import java.util.Optional;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.Id;
import org.faultwright.pack.SwitchId;
import org.faultwright.pack.format.Form;
import org.faultwright.pack.format.Forms;
import org.faultwright.pack.format.Ids;
import org.faultwright.pack.format.Kind;
import org.faultwright.pack.format.Names;
import org.faultwright.pack.format.Scope;
import org.faultwright.pack.format.Shape;

/** Positions of switches by their names: a switch is named after its on position. */
final class BenchStates {

  /** A position of a switch. */
  static final Form<BenchState> FORM =
      Forms.scalar(
          "the name of a bench state",
          new Shape.Pattern(Ids.SPELLING, false),
          (s, scope) ->
              Ids.resolve(List.of(Kind.BENCH_STATE), s, scope).flatMap(name -> state(name, scope)));

  private BenchStates() {}

  private static Optional<BenchState> state(String name, Scope scope) {
    return scope
        .names()
        .definition(Kind.BENCH_STATE, name)
        .flatMap(Names.Defined::entry)
        .filter(e -> Id.isWellSpelt(e.name()))
        .map(e -> new BenchState(new SwitchId(e.name()), e.name().equals(name)));
  }
}
