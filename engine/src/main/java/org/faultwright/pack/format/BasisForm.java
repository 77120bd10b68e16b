package org.faultwright.pack.format;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.faultwright.pack.Basis;
import org.faultwright.pack.SourceId;
import org.faultwright.pack.yaml.YamlNode.YamlMap;
import org.faultwright.problem.Nearest;
import org.faultwright.problem.Span;

/** What numbers rest on, as any block may say it. */
public final class BasisForm {

  private static final String DEVICES = "devices";

  private static final Key<Integer> SEEN =
      Key.required("seen", Numbers.COUNT, "how often it was seen");
  private static final Key<Integer> OF = Key.required("of", Numbers.COUNT, "out of how many");
  private static final Key<String> AMONG =
      Key.required("among", Ids.spelt(s -> s), "what was counted: devices, or a complaint");

  /** An entry of {@code sources}. */
  public static final Key<Basis> SOURCE =
      Key.optional(
          "source",
          Ids.ref(Kind.SOURCE, SourceId::new).as(Basis.Sourced::new),
          "the source that the numbers here come from");

  /** Counted in repair records. */
  public static final Key<Basis> COUNTED =
      Key.optional(
          "counted",
          Forms.built(Block.of("counted", SEEN, OF, AMONG), BasisForm::counted),
          "what was counted in repair records");

  /** In words. */
  public static final Key<Basis> BASIS =
      Key.optional(
          "basis",
          Forms.word(
              Map.entry("common-practice", (Basis) new Basis.CommonPractice()),
              Map.entry("invented", (Basis) new Basis.Invented())),
          "what the numbers here rest on");

  private BasisForm() {}

  private static Optional<Basis> counted(Fields f) {
    if (!f.complete()) {
      return Optional.empty();
    }
    int seen = f.need(SEEN);
    int of = f.need(OF);
    if (seen > of) {
      f.scope()
          .error(
              FormatRule.BAD_COUNT,
              f.at(SEEN),
              "more were seen than were looked at: " + seen + " of " + of,
              "'seen' must not be larger than 'of'");
      return Optional.empty();
    }
    String among = f.need(AMONG);
    if (!among.equals(DEVICES) && !f.scope().names().has(Kind.COMPLAINT, among)) {
      List<String> words = new ArrayList<>(f.scope().names().all(Kind.COMPLAINT));
      words.add(DEVICES);
      f.scope()
          .error(
              Kind.COMPLAINT.unknown(),
              f.at(AMONG),
              f.scope().owner()
                  + " is counted among '"
                  + among
                  + "', which is no complaint of this pack",
              Nearest.of(among, words)
                  .map(w -> "did you mean '" + w + "'?")
                  .orElse("it can be: " + String.join(", ", words)));
      return Optional.empty();
    }
    return Optional.of(new Basis.Counted(seen, of, among));
  }

  /**
   * The scope inside a block: what the block says of its numbers, or else what was said outside.
   */
  static Scope within(YamlMap map, Scope scope) {
    Scope silent = scope.reportingTo(p -> {});
    for (Key<Basis> key : List.of(SOURCE, COUNTED, BASIS)) {
      Optional<Basis> basis = map.value(key.name()).flatMap(n -> key.form().read(n, silent));
      if (basis.isPresent()) {
        return scope.on(basis);
      }
      if (map.value(key.name()).isPresent()) {
        // It is reported as the block is read; what it would have said is not a problem of its own.
        return scope.on(Optional.of(new Basis.CommonPractice()));
      }
    }
    return scope;
  }

  /** The basis of a number; where there is none, that is a problem. */
  public static Basis needed(Scope scope, Span at) {
    if (scope.basis().isEmpty()) {
      scope.error(
          FormatRule.NO_BASIS,
          at,
          "'" + scope.key() + "' of " + scope.owner() + " rests on nothing",
          "say what it rests on: 'source:', 'counted:' or 'basis:', here or in a block around it");
    }
    return scope.basis().orElse(new Basis.CommonPractice());
  }
}
