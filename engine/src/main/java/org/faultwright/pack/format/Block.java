package org.faultwright.pack.format;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiFunction;
import org.faultwright.pack.yaml.YamlNode;
import org.faultwright.pack.yaml.YamlNode.Entry;
import org.faultwright.pack.yaml.YamlNode.YamlMap;
import org.faultwright.pack.yaml.YamlNode.YamlScalar;

/**
 * A block of keys: the table from which it is read and its schema is written. Immutable.
 *
 * <p>Keys are read in the order of the table, not of the file.
 */
public final class Block implements Form<Fields> {

  private final String name;
  private final List<Key<?>> keys;
  private final List<String> keyNames;
  private final List<List<String>> exactlyOne;
  private final List<List<String>> atMostOne;
  private final List<List<String>> anyOf;
  private final BiFunction<YamlMap, Scope, Scope> inside;

  private Block(
      String name,
      List<Key<?>> keys,
      List<List<String>> exactlyOne,
      List<List<String>> atMostOne,
      List<List<String>> anyOf,
      BiFunction<YamlMap, Scope, Scope> inside) {
    this.name = name;
    this.keys = List.copyOf(keys);
    this.keyNames = keys.stream().<String>map(Key::name).toList();
    this.exactlyOne = List.copyOf(exactlyOne);
    this.atMostOne = List.copyOf(atMostOne);
    this.anyOf = List.copyOf(anyOf);
    this.inside = inside;
  }

  /** A block with these keys. */
  public static Block of(String name, Key<?>... keys) {
    return of(name, List.of(keys));
  }

  /** A block with these keys. */
  public static Block of(String name, List<Key<?>> keys) {
    return new Block(name, keys, List.of(), List.of(), List.of(), (map, scope) -> scope);
  }

  /** The same block with more keys. */
  public Block and(Key<?>... more) {
    List<Key<?>> all = new ArrayList<>(keys);
    all.addAll(List.of(more));
    return new Block(name, all, exactlyOne, atMostOne, anyOf, inside);
  }

  /** The same block under another name. */
  public Block called(String newName) {
    return new Block(newName, keys, exactlyOne, atMostOne, anyOf, inside);
  }

  /** The same block, which must have exactly one of these keys. */
  public Block exactlyOneOf(Key<?>... some) {
    return new Block(name, keys, with(exactlyOne, some), atMostOne, anyOf, inside);
  }

  /** The same block, which may have at most one of these keys. */
  public Block atMostOneOf(Key<?>... some) {
    return new Block(name, keys, exactlyOne, with(atMostOne, some), anyOf, inside);
  }

  /** The same block, which must have at least one of these keys. */
  public Block atLeastOneOf(Key<?>... some) {
    return new Block(name, keys, exactlyOne, atMostOne, with(anyOf, some), inside);
  }

  /** The same block, which can say what its numbers rest on. */
  public Block withBasis() {
    return and(BasisForm.SOURCE, BasisForm.COUNTED, BasisForm.BASIS)
        .atMostOneOf(BasisForm.SOURCE, BasisForm.COUNTED, BasisForm.BASIS)
        .within(BasisForm::within);
  }

  /** The same block, whose values are read in another scope. */
  public Block within(BiFunction<YamlMap, Scope, Scope> scope) {
    return new Block(name, keys, exactlyOne, atMostOne, anyOf, scope);
  }

  private static List<List<String>> with(List<List<String>> groups, Key<?>... some) {
    List<List<String>> more = new ArrayList<>(groups);
    more.add(Arrays.stream(some).<String>map(Key::name).toList());
    return more;
  }

  /** The names of its keys. */
  public List<String> keyNames() {
    return keyNames;
  }

  @Override
  public Optional<Fields> read(YamlNode node, Scope scope) {
    if (!(node instanceof YamlMap map)) {
      Forms.wrongType(node, scope, "a block of keys");
      return Optional.empty();
    }
    Scope inner = inside.apply(Slips.corrected(map, keyNames()), scope);
    Set<String> slips = unknownKeys(map, scope);
    boolean complete = choices(map, scope, slips);
    Map<Key<?>, Object> values = new LinkedHashMap<>();
    for (Key<?> key : keys) {
      Optional<Entry> entry = map.entry(key.name());
      if (entry.isPresent()) {
        Optional<?> value = value(key, entry.get(), inner);
        value.ifPresent(v -> values.put(key, v));
        complete &= value.isPresent() || !key.required();
      } else if (key.required()) {
        complete = false;
        missing(key, map, scope, slips);
      }
    }
    return Optional.of(new Fields(map, inner, values, slips, complete));
  }

  private static Optional<?> value(Key<?> key, Entry entry, Scope scope) {
    Scope inner = scope.at(entry.key());
    if (entry.value() instanceof YamlScalar s && s.isEmpty()) {
      inner.error(
          FormatRule.EMPTY_VALUE,
          entry.key().at(),
          "'" + key.name() + "' of " + scope.owner() + " has no value",
          "write a value after it, or remove the key");
      return Optional.empty();
    }
    return key.form().read(entry.value(), inner);
  }

  /** Reports keys that the table does not have; returns what they were probably meant to be. */
  private Set<String> unknownKeys(YamlMap map, Scope scope) {
    Set<String> meant = new LinkedHashSet<>();
    Slips.in(map, keyNames())
        .forEach(
            (entry, nearest) -> {
              nearest.ifPresent(meant::add);
              scope.error(
                  FormatRule.UNKNOWN_KEY,
                  entry.key().at(),
                  "there is no key '" + entry.key().shortened() + "' in " + scope.owner(),
                  nearest
                      .map(n -> "did you mean '" + n + "'?")
                      .orElse("keys here are: " + String.join(", ", keyNames())));
            });
    return meant;
  }

  private void missing(Key<?> key, YamlMap map, Scope scope, Set<String> slips) {
    if (!slips.contains(key.name())) {
      scope.error(
          FormatRule.MISSING_KEY,
          scope.place().orElse(map.at()),
          "'" + key.name() + "' is missing in " + scope.owner(),
          "add '" + key.name() + ":', " + key.doc());
    }
  }

  private boolean choices(YamlMap map, Scope scope, Set<String> slips) {
    boolean good = true;
    for (List<String> group : exactlyOne) {
      good &= count(map, scope, slips, group, 1, 1);
    }
    for (List<String> group : atMostOne) {
      good &= count(map, scope, slips, group, 0, 1);
    }
    for (List<String> group : anyOf) {
      good &= count(map, scope, slips, group, 1, group.size());
    }
    return good;
  }

  private static boolean count(
      YamlMap map, Scope scope, Set<String> slips, List<String> group, int least, int most) {
    List<Entry> found = map.entries().stream().filter(e -> group.contains(e.name())).toList();
    if (found.size() > most) {
      scope.error(
          FormatRule.CHOOSE_ONE,
          found.get(1).key().at(),
          "'"
              + found.get(1).name()
              + "' stands beside '"
              + found.get(0).name()
              + "' in "
              + scope.owner()
              + ", and only one of them can hold",
          "keep one of the two");
      return false;
    } else if (found.size() < least) {
      if (slips.stream().noneMatch(group::contains)) {
        scope.error(
            FormatRule.CHOOSE_ONE,
            scope.place().orElse(map.at()),
            scope.owner()
                + " needs "
                + (most == 1 ? "one" : "at least one")
                + " of: "
                + String.join(", ", group),
            "add one of them");
      }
      return false;
    }
    return true;
  }

  @Override
  public Shape shape() {
    return new Shape.Named(
        name,
        () ->
            new Shape.Fields(
                name,
                keys.stream()
                    .map(k -> new Shape.Field(k.name(), k.form().shape(), k.required(), k.doc()))
                    .toList(),
                exactlyOne,
                atMostOne,
                anyOf));
  }
}
