package org.faultwright.pack.format;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.BiFunction;
import java.util.function.Function;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.EventId;
import org.faultwright.pack.Id;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.yaml.YamlNode;
import org.faultwright.pack.yaml.YamlNode.Entry;
import org.faultwright.pack.yaml.YamlNode.YamlMap;
import org.faultwright.pack.yaml.YamlNode.YamlScalar;
import org.faultwright.problem.Nearest;

/** Forms of ids: new ones, references, and maps from ids. */
public final class Ids {

  /** The spelling of an id. */
  public static final String SPELLING = Id.SPELLING.pattern();

  private Ids() {}

  /** An id that is defined by being written: an outcome, a state, a mode. */
  public static <T> Form<T> spelt(Function<String, T> make) {
    return Forms.scalar(
        "an id",
        new Shape.Pattern(SPELLING, false),
        (scalar, scope) ->
            wellSpelt(scalar, scope) ? Optional.of(make.apply(scalar.text())) : Optional.empty());
  }

  /** A reference to something of a kind. */
  public static <T> Form<T> ref(Kind kind, Function<String, T> make) {
    return Forms.scalar(
        "the id of a " + kind.word(),
        new Shape.Pattern(SPELLING, false),
        (scalar, scope) -> resolve(List.of(kind), scalar, scope).map(make));
  }

  /** A reference to a cause or an event. */
  public static final Form<NodeId> NODE =
      Forms.scalar("the id of a cause or an event", new Shape.Pattern(SPELLING, false), Ids::node);

  /** A reference to a cause. */
  public static final Form<CauseId> CAUSE = ref(Kind.CAUSE, CauseId::new);

  /** The node of this name. */
  public static Optional<NodeId> node(YamlScalar scalar, Scope scope) {
    return resolve(List.of(Kind.CAUSE, Kind.EVENT), scalar, scope)
        .map(id -> scope.names().has(Kind.CAUSE, id) ? new CauseId(id) : new EventId(id));
  }

  /** Finds what a reference means: an id of one of the kinds, under its present name. */
  public static Optional<String> resolve(List<Kind> kinds, YamlScalar scalar, Scope scope) {
    String id = scalar.text();
    if (kinds.stream().anyMatch(k -> scope.names().has(k, id))) {
      return Optional.of(id);
    }
    Optional<String> now = scope.names().nowCalled(id);
    if (now.isPresent() && kinds.stream().anyMatch(k -> scope.names().has(k, now.get()))) {
      scope.warning(
          FormatRule.RENAMED_ID,
          scalar.at(),
          kinds.get(0).word() + " '" + id + "' has been renamed",
          "it is now called '" + now.get() + "'");
      return now;
    }
    unknown(kinds.get(0), scope.names().all(kinds), scalar, scope);
    return Optional.empty();
  }

  private static void unknown(Kind kind, List<String> known, YamlScalar scalar, Scope scope) {
    String way = Nearest.didYouMean(scalar.text(), known);
    if (way.isEmpty()) {
      way =
          known.isEmpty()
              ? "this pack has no "
                  + kind.section().map(s -> "'" + s + "'").orElse(kind.word() + "s")
              : known.size() <= 12
                  ? "it has: " + String.join(", ", known)
                  : kind.section()
                      .map(s -> "define it under '" + s + "', or correct the id")
                      .orElse("correct the id");
    }
    scope.error(
        kind.unknown(),
        scalar.at(),
        scope.owner()
            + " points at "
            + kind.word()
            + " '"
            + scalar.shortened()
            + "', which this pack does not have",
        way);
  }

  /** Whether an id that is being defined is spelt as ids are; if not, that is a problem. */
  public static boolean wellSpelt(YamlScalar scalar, Scope scope) {
    if (Id.isWellSpelt(scalar.text())) {
      return true;
    }
    String better =
        scalar
            .text()
            .strip()
            .toLowerCase(Locale.ROOT)
            .replaceAll("[^a-z0-9]+", "-")
            .replaceAll("^-|-$", "");
    scope.error(
        FormatRule.BAD_ID,
        scalar.at(),
        "an id is made of lower-case letters, digits and single hyphens, at most "
            + Id.MAX_LENGTH
            + " characters: "
            + scalar.word(),
        Id.isWellSpelt(better)
            ? "write '" + better + "'"
            : "write short words with hyphens between");
    return false;
  }

  /**
   * A map from references to values.
   *
   * @param key reads a key
   */
  public static <K, V> Form<Map<K, V>> map(
      BiFunction<YamlScalar, Scope, Optional<K>> key, Form<V> value) {
    return new Form<>() {
      @Override
      public Optional<Map<K, V>> read(YamlNode node, Scope scope) {
        if (!(node instanceof YamlMap map)) {
          Forms.wrongType(node, scope, "a block of ids and values, as in {one: ..., two: ...}");
          return Optional.empty();
        }
        Map<K, V> values = new LinkedHashMap<>();
        boolean good = true;
        for (Entry e : map.entries()) {
          Optional<K> k = key.apply(e.key(), scope);
          Optional<V> v = entry(e, value, scope.at(e.key()));
          if (k.isPresent() && v.isPresent()) {
            values.put(k.get(), v.get());
          } else {
            good = false;
          }
        }
        return good ? Optional.of(values) : Optional.empty();
      }

      @Override
      public Shape shape() {
        return new Shape.MapOf(value.shape(), 0);
      }
    };
  }

  /** A map from references of a kind to values. */
  public static <K, V> Form<Map<K, V>> map(Kind kind, Function<String, K> make, Form<V> value) {
    return map((s, scope) -> resolve(List.of(kind), s, scope).map(make), value);
  }

  /** The value of an entry; empty where nothing is written, which is a problem. */
  public static <V> Optional<V> entry(Entry e, Form<V> form, Scope scope) {
    if (e.value() instanceof YamlScalar s && s.isEmpty()) {
      scope.error(
          FormatRule.EMPTY_VALUE,
          e.key().at(),
          "'" + e.key().shortened() + "' of " + scope.owner() + " has no value",
          "write a value after it, or remove it");
      return Optional.empty();
    }
    return form.read(e.value(), scope);
  }
}
