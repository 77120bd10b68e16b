package org.faultwright.pack.reader;

import java.util.Optional;
import java.util.function.Consumer;
import org.faultwright.pack.Id;
import org.faultwright.pack.Part;
import org.faultwright.pack.PartId;
import org.faultwright.pack.format.FormatRule;
import org.faultwright.pack.format.Kind;
import org.faultwright.pack.format.Names;
import org.faultwright.pack.format.Slips;
import org.faultwright.pack.yaml.YamlNode.Entry;
import org.faultwright.pack.yaml.YamlNode.YamlList;
import org.faultwright.pack.yaml.YamlNode.YamlMap;
import org.faultwright.pack.yaml.YamlNode.YamlScalar;
import org.faultwright.problem.Problem;
import org.faultwright.problem.Span;

/** Collects the ids that a pack and its fragments define; each must be defined once. */
final class Definitions {

  private final Names names = new Names();
  private final Consumer<Problem> problems;

  Definitions(Consumer<Problem> problems) {
    this.problems = problems;
  }

  /** All that was collected. */
  Names names() {
    return names;
  }

  /** Collects from a pack or a fragment. */
  void collect(YamlMap written) {
    YamlMap root = Slips.corrected(written, PackKeys.A_PACK.keyNames());
    for (Entry section : root.entries()) {
      Optional<Kind> kind = Kind.ofSection(section.name());
      if (kind.isPresent() && section.value() instanceof YamlMap map) {
        map.entries().forEach(e -> define(kind.get(), e));
      }
    }
    if (root.value("boards").orElse(null) instanceof YamlList list) {
      list.items().stream()
          .filter(YamlScalar.class::isInstance)
          .forEach(s -> names.add(Kind.BOARD, (YamlScalar) s));
    }
    root.map("renamed")
        .ifPresent(
            m ->
                m.entries()
                    .forEach(
                        e -> {
                          if (e.value() instanceof YamlScalar now) {
                            names.rename(e.name(), now.text());
                          }
                        }));
  }

  private void define(Kind kind, Entry written) {
    Entry e = corrected(kind, written);
    twice(kind, e.key(), names.add(kind, e));
    if (kind == Kind.SWITCH) {
      twice(Kind.BENCH_STATE, e.key(), names.add(Kind.BENCH_STATE, e.key(), e));
      if (e.value() instanceof YamlMap map
          && map.value("off-called").orElse(null) instanceof YamlScalar off) {
        twice(Kind.BENCH_STATE, off, names.add(Kind.BENCH_STATE, off, e));
      }
    } else if (kind == Kind.STEP && e.value() instanceof YamlMap step) {
      step.map("points").ifPresent(points -> points.entries().forEach(this::definePoint));
    } else if (kind == Kind.CAUSE && names.has(Kind.EVENT, e.name())) {
      twice(Kind.CAUSE, e.key(), names.definition(Kind.EVENT, e.name()));
    } else if (kind == Kind.EVENT && names.has(Kind.CAUSE, e.name())) {
      twice(Kind.EVENT, e.key(), names.definition(Kind.CAUSE, e.name()));
    }
  }

  private void definePoint(Entry written) {
    Entry point = corrected(Kind.POINT, written);
    twice(Kind.POINT, point.key(), names.add(Kind.POINT, point));
  }

  /** The definition as it was probably meant, where others look into it. */
  private static Entry corrected(Kind kind, Entry e) {
    return e.value() instanceof YamlMap map && PackKeys.BLOCKS.containsKey(kind)
        ? new Entry(e.key(), Slips.corrected(map, PackKeys.BLOCKS.get(kind).keyNames()))
        : e;
  }

  /** After all has been collected: each part brings a cause of its own, the bad new part. */
  void addBadNewParts() {
    for (String part : names.all(Kind.PART)) {
      String bad = "new-" + part + "-bad";
      if (Id.isWellSpelt(part) && Id.isWellSpelt(bad)) {
        names.add(Kind.CAUSE, Part.badNew(new PartId(part)).value());
      }
    }
  }

  private void twice(Kind kind, YamlScalar id, Optional<Names.Defined> earlier) {
    earlier.ifPresent(
        e ->
            problems.accept(
                Problem.error(
                    FormatRule.DEFINED_TWICE.id(),
                    id.at(),
                    kind.word() + " '" + id.shortened() + "' is defined already",
                    e.at()
                        .map(at -> place(at, id.at()) + ": give this one another id, or remove it")
                        .orElse("give it another id"))));
  }

  private static String place(Span earlier, Span here) {
    return earlier.file().equals(here.file())
        ? "line " + earlier.line() + " has it"
        : earlier.file() + ", line " + earlier.line() + ", has it";
  }
}
