package org.faultwright.pack.format;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiFunction;
import java.util.function.Function;
import org.faultwright.pack.yaml.YamlNode;
import org.faultwright.pack.yaml.YamlNode.YamlList;
import org.faultwright.pack.yaml.YamlNode.YamlMap;
import org.faultwright.pack.yaml.YamlNode.YamlScalar;
import org.faultwright.problem.Nearest;

/** The plain forms: texts, words, yes and no, lists. */
public final class Forms {

  /** Any text. */
  public static final Form<String> TEXT = scalar("a text", new Shape.Text(), Forms::text);

  /** Yes or no. */
  public static final Form<Boolean> YES_NO = scalar("yes or no", new Shape.YesNo(), Forms::yesOrNo);

  /** The format that a file is written in. */
  public static final Form<String> FORMAT =
      scalar("1", new Shape.Words(List.of("1")), Forms::format);

  private Forms() {}

  /** A form that a single value takes. */
  public static <T> Form<T> scalar(
      String what, Shape shape, BiFunction<YamlScalar, Scope, Optional<T>> read) {
    return new Form<>() {
      @Override
      public Optional<T> read(YamlNode node, Scope scope) {
        if (node instanceof YamlScalar scalar) {
          return read.apply(scalar, scope);
        }
        wrongType(node, scope, what);
        return Optional.empty();
      }

      @Override
      public Shape shape() {
        return shape;
      }
    };
  }

  /** Reports a value of the wrong type. */
  public static void wrongType(YamlNode node, Scope scope, String what) {
    String found = node instanceof YamlScalar s ? s.word() : node.word();
    scope.error(
        FormatRule.WRONG_TYPE,
        node.at(),
        "'" + scope.key() + "' of " + scope.owner() + " must be " + what + ", and here is " + found,
        asWritten(what, node));
  }

  private static String asWritten(String what, YamlNode node) {
    if (what.startsWith("a list")) {
      return node instanceof YamlScalar s && !s.isEmpty() && s.text().length() < 40
          ? "write [" + s.text() + "]"
          : "write the items in brackets, or each in a line of its own after a dash";
    } else if (what.startsWith("a block")) {
      return "write its keys in braces, or each in a line of its own below";
    }
    return node instanceof YamlScalar ? "correct it" : "write a single value";
  }

  private static Optional<String> format(YamlScalar s, Scope scope) {
    if (s.text().equals("1")) {
      return Optional.of("1");
    }
    scope.error(
        FormatRule.FORMAT_NOT_SUPPORTED,
        s.at(),
        "this version reads format 1, and this is format " + s.word(),
        "write 'format: 1', or use a newer version of the program");
    return Optional.empty();
  }

  private static Optional<String> text(YamlScalar scalar, Scope scope) {
    return Optional.of(scalar.text().strip());
  }

  private static Optional<Boolean> yesOrNo(YamlScalar scalar, Scope scope) {
    return switch (scalar.text()) {
      case "yes", "true" -> Optional.of(true);
      case "no", "false" -> Optional.of(false);
      default -> {
        unknownWord(scalar, scope, List.of("yes", "no"));
        yield Optional.empty();
      }
    };
  }

  /** One of several words, each with its meaning. */
  @SafeVarargs
  public static <T> Form<T> word(Map.Entry<String, T>... meanings) {
    Map<String, T> words = new LinkedHashMap<>();
    for (Map.Entry<String, T> m : meanings) {
      words.put(m.getKey(), m.getValue());
    }
    return scalar(
        "one of: " + String.join(", ", words.keySet()),
        new Shape.Words(List.copyOf(words.keySet())),
        (scalar, scope) -> {
          Optional<T> meaning = Optional.ofNullable(words.get(scalar.text()));
          if (meaning.isEmpty()) {
            unknownWord(scalar, scope, List.copyOf(words.keySet()));
          }
          return meaning;
        });
  }

  private static void unknownWord(YamlScalar scalar, Scope scope, List<String> words) {
    scope.error(
        FormatRule.UNKNOWN_WORD,
        scalar.at(),
        "'" + scope.key() + "' of " + scope.owner() + " cannot be " + scalar.word(),
        Nearest.of(scalar.text(), words)
            .map(w -> "did you mean '" + w + "'?")
            .orElse("it can be: " + String.join(", ", words)));
  }

  /** A list. */
  public static <T> Form<List<T>> list(Form<T> item) {
    return new Form<>() {
      @Override
      public Optional<List<T>> read(YamlNode node, Scope scope) {
        if (!(node instanceof YamlList list)) {
          wrongType(node, scope, "a list, as in [one, two]");
          return Optional.empty();
        }
        List<T> items = new ArrayList<>();
        boolean good = true;
        for (YamlNode n : list.items()) {
          Optional<T> value = item.read(n, scope);
          value.ifPresent(items::add);
          good &= value.isPresent();
        }
        return good ? Optional.of(items) : Optional.empty();
      }

      @Override
      public Shape shape() {
        return new Shape.ListOf(item.shape(), 0);
      }
    };
  }

  /** A list in which nothing may stand twice. */
  public static <T> Form<Set<T>> set(Form<T> item) {
    return new Form<>() {
      @Override
      public Optional<Set<T>> read(YamlNode node, Scope scope) {
        Optional<List<T>> items = list(item).read(node, scope);
        if (items.isEmpty()) {
          return Optional.empty();
        }
        Set<T> set = new LinkedHashSet<>();
        for (int i = 0; i < items.get().size(); i++) {
          if (!set.add(items.get().get(i))) {
            YamlNode twice = ((YamlList) node).items().get(i);
            scope.error(
                FormatRule.LISTED_TWICE,
                twice.at(),
                twice.word() + " stands twice in '" + scope.key() + "' of " + scope.owner(),
                "remove one of the two");
          }
        }
        return Optional.of(set);
      }

      @Override
      public Shape shape() {
        return new Shape.ListOf(item.shape(), 0);
      }
    };
  }

  /** A list or map in which something must be. */
  public static <T> Form<T> some(Form<T> form) {
    return new Form<>() {
      @Override
      public Optional<T> read(YamlNode node, Scope scope) {
        boolean empty =
            node instanceof YamlList list && list.items().isEmpty()
                || node instanceof YamlMap map && map.entries().isEmpty();
        if (empty) {
          scope.error(
              FormatRule.EMPTY_VALUE,
              node.at(),
              "'" + scope.key() + "' of " + scope.owner() + " is empty",
              "write at least one, or remove the key");
          return Optional.empty();
        }
        return form.read(node, scope);
      }

      @Override
      public Shape shape() {
        return form.shape().notEmpty();
      }
    };
  }

  /** A value that can take one of two forms: one if it is a scalar, the other if it is not. */
  public static <T> Form<T> scalarOr(Form<T> scalar, Form<T> other) {
    return new Form<>() {
      @Override
      public Optional<T> read(YamlNode node, Scope scope) {
        return (node instanceof YamlScalar ? scalar : other).read(node, scope);
      }

      @Override
      public Shape shape() {
        return new Shape.Either(List.of(scalar.shape(), other.shape()));
      }
    };
  }

  /** A block that is read into something, or into nothing where it lacks what it needs. */
  public static <T> Form<T> built(Block block, Function<Fields, Optional<T>> build) {
    return new Form<>() {
      @Override
      public Optional<T> read(YamlNode node, Scope scope) {
        return block.read(node, scope).flatMap(build);
      }

      @Override
      public Shape shape() {
        return block.shape();
      }
    };
  }
}
