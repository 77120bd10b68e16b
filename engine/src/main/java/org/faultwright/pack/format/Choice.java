package org.faultwright.pack.format;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Supplier;
import org.faultwright.pack.yaml.YamlNode;
import org.faultwright.pack.yaml.YamlNode.YamlMap;
import org.faultwright.problem.Nearest;

/**
 * A block that takes one of several forms, told apart by a key that each has and the others have
 * not. Immutable once built.
 *
 * @param <T> what it is read into
 */
public final class Choice<T> implements Form<T> {

  private record Way<T>(Supplier<Block> block, Function<Fields, Optional<T>> build) {}

  private final String name;
  private final Map<String, Way<T>> ways;

  private Choice(String name, Map<String, Way<T>> ways) {
    this.name = name;
    this.ways = ways;
  }

  /** A choice without forms yet. */
  public static <T> Choice<T> of(String name) {
    return new Choice<>(name, Map.of());
  }

  /** The same choice with one more form, known by the first key of its block. */
  public Choice<T> or(Block block, Function<Fields, Optional<T>> build) {
    return or(block.keyNames().get(0), () -> block, build);
  }

  /** The same choice with one more form, known by a key; its block may contain the choice. */
  public Choice<T> or(String key, Supplier<Block> block, Function<Fields, Optional<T>> build) {
    Map<String, Way<T>> more = new LinkedHashMap<>(ways);
    more.put(key, new Way<>(block, build));
    return new Choice<>(name, more);
  }

  /** The keys by which the forms are known. */
  public List<String> keys() {
    return List.copyOf(ways.keySet());
  }

  @Override
  public Optional<T> read(YamlNode node, Scope scope) {
    if (!(node instanceof YamlMap map)) {
      Forms.wrongType(node, scope, "a block with one of the keys " + String.join(", ", keys()));
      return Optional.empty();
    }
    Optional<String> known = keys().stream().filter(k -> map.entry(k).isPresent()).findFirst();
    if (known.isEmpty()) {
      unknown(map, scope);
      return Optional.empty();
    }
    Way<T> way = ways.get(known.get());
    return way.block().get().read(map, scope).flatMap(way.build());
  }

  private void unknown(YamlMap map, Scope scope) {
    for (YamlNode.Entry e : map.entries()) {
      Optional<String> meant = Nearest.of(e.name(), keys());
      if (meant.isPresent()) {
        scope.error(
            FormatRule.UNKNOWN_KEY,
            e.key().at(),
            "there is no key '"
                + e.key().shortened()
                + "' in '"
                + scope.key()
                + "' of "
                + scope.owner(),
            "did you mean '" + meant.get() + "'?");
        return;
      }
    }
    scope.error(
        FormatRule.CHOOSE_ONE,
        scope.place().orElse(map.at()),
        "'" + scope.key() + "' of " + scope.owner() + " needs one of: " + String.join(", ", keys()),
        "add one of them");
  }

  @Override
  public Shape shape() {
    return new Shape.Named(
        name,
        () -> {
          List<Shape> shapes = new ArrayList<>();
          ways.values().forEach(w -> shapes.add(w.block().get().shape()));
          return new Shape.Either(shapes);
        });
  }
}
