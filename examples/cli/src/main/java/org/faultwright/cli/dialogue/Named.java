package org.faultwright.cli.dialogue;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import org.faultwright.pack.Id;
import org.faultwright.problem.Nearest;

/** Finds the one of several that somebody means by an id, its beginning, or words of its title. */
sealed interface Named<I extends Id> {

  /** This one is meant. */
  record Found<I extends Id>(I id) implements Named<I> {}

  /**
   * It may be several, or none.
   *
   * @param several whether it fits several
   * @param words which ones, or what could be typed instead
   */
  record NotFound<I extends Id>(boolean several, String words) implements Named<I> {}

  /** Looks among titles by id. */
  static <I extends Id> Named<I> among(Map<I, String> titles, String typed) {
    String text = simple(typed);
    for (I id : titles.keySet()) {
      if (id.value().equals(text)) {
        return new Found<>(id);
      }
    }
    List<I> fitting =
        titles.entrySet().stream()
            .filter(e -> e.getKey().value().contains(text) || simple(e.getValue()).contains(text))
            .map(Map.Entry::getKey)
            .toList();
    if (fitting.size() == 1 && !text.isEmpty()) {
      return new Found<>(fitting.get(0));
    }
    List<String> ids = titles.keySet().stream().map(Id::value).toList();
    if (fitting.isEmpty()) {
      return new NotFound<>(
          false,
          "There is no '"
              + typed
              + "'"
              + Nearest.of(text, ids).map(n -> "; did you mean " + n + "?").orElse("."));
    }
    return new NotFound<>(
        true,
        "'"
            + typed
            + "' may be: "
            + fitting.stream().limit(6).map(Id::value).collect(Collectors.joining(", "))
            + (fitting.size() > 6 ? ", ..." : ""));
  }

  private static String simple(String words) {
    return words.strip().toLowerCase(Locale.ROOT).replaceAll("[ _]+", "-");
  }
}
