package org.faultwright.pack.check;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.faultwright.pack.BoardId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;

/** Every name that a pack gives, by the kind of thing it names. */
final class NamesOfPack {

  /** A name and where it is given. */
  record Name(String id, String path) {}

  private final Map<String, List<Name>> byKind = new LinkedHashMap<>();

  private NamesOfPack(Pack pack) {
    section("causes", "causes", pack.causes().keySet());
    section("causes", "events", pack.events().keySet()); // one name space
    section("complaints", "complaints", pack.complaints().keySet());
    section("history", "history", pack.histories().keySet());
    section("symptoms", "symptoms", pack.symptoms().keySet());
    section("steps", "steps", pack.steps().keySet());
    section("parts", "parts", pack.parts().keySet());
    section("switches", "switches", pack.switches().keySet());
    section("holds", "holds", pack.holds().keySet());
    section("cautions", "cautions", pack.cautions().keySet());
    section("sources", "sources", pack.sources().keySet());
    section("rails", "rails", pack.rails().keySet());
    section("instruments", "instruments", pack.instruments().keySet());
    section("tools", "tools", pack.tools().keySet());
    section("consents", "consents", pack.consents().keySet());
    section("activities", "activities", pack.activities().keySet());
    section("one-of", "one-of", pack.groups().keySet());
    for (BoardId board : pack.boards()) {
      add("boards", board, "boards");
    }
    pack.switches()
        .values()
        .forEach(s -> add("switches", s.offCalled(), "switches/" + s.id() + "/off-called"));
    for (Step step : pack.steps().values()) {
      step.pinTable()
          .ifPresent(
              t ->
                  t.points()
                      .forEach(
                          p -> add("points", p.id(), "steps/" + step.id() + "/points/" + p.id())));
    }
  }

  /** The names by kind, in the order in which they are given. */
  static Map<String, List<Name>> byKind(Pack pack) {
    return new NamesOfPack(pack).byKind;
  }

  /** All names, those of outcomes and states included. */
  static Set<String> all(Pack pack) {
    Set<String> all = new LinkedHashSet<>();
    byKind(pack).values().forEach(names -> names.forEach(n -> all.add(n.id())));
    for (Step step : pack.steps().values()) {
      step.shows().ifPresent(o -> o.outcomes().forEach(y -> all.add(y.value())));
      step.pinTable()
          .ifPresent(
              t -> t.points().forEach(p -> p.states().forEach(s -> all.add(s.id().value()))));
    }
    return all;
  }

  private void section(String kind, String section, Collection<?> ids) {
    ids.forEach(id -> add(kind, id, section + "/" + id));
  }

  private void add(String kind, Object id, String path) {
    byKind.computeIfAbsent(kind, k -> new ArrayList<>()).add(new Name(id.toString(), path));
  }
}
