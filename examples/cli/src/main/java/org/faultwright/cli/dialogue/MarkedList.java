package org.faultwright.cli.dialogue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.Intake;
import org.faultwright.cli.dialogue.Marks.Mark;
import org.faultwright.cli.dialogue.Marks.Sign;
import org.faultwright.cli.text.Asked;

/**
 * A list of which any number of items are marked; what is not marked stays as it was.
 *
 * @param <T> what is on the list
 */
final class MarkedList<T> implements Settling {

  /**
   * What a mark settles.
   *
   * @param <T> what is on the list
   */
  interface Meaning<T> {
    /** Facts and intake after it; empty: the mark means nothing here. */
    Optional<Result.Settled> of(T item, Sign sign, Intake intake);
  }

  private final String words;
  private final List<String> keys;
  private final List<T> items;
  private final Function<T, String> title;
  private final KnownOf<T> known;
  private final Meaning<T> meaning;

  /**
   * What is known of an item.
   *
   * @param <T> what is on the list
   */
  interface KnownOf<T> {
    /** In a few words; empty: nothing. */
    String of(T item, CaseFile known);
  }

  MarkedList(
      String words,
      List<String> keys,
      List<T> items,
      Function<T, String> title,
      KnownOf<T> known,
      Meaning<T> meaning) {
    this.words = words;
    this.keys = keys;
    this.items = List.copyOf(items);
    this.title = title;
    this.known = known;
    this.meaning = meaning;
  }

  @Override
  public Asked asked(CaseFile caseFile, String notice) {
    List<String> shown = new ArrayList<>();
    for (T item : items) {
      String already = known.of(item, caseFile);
      shown.add(title.apply(item) + (already.isEmpty() ? "" : ": " + already));
    }
    return new Asked(words, shown, keys, notice);
  }

  @Override
  public Result hear(CaseFile caseFile, String typed) {
    Intake intake = caseFile.intake();
    List<Fact> facts = new ArrayList<>();
    Marks marks;
    try {
      marks = Marks.parse(typed, items.size());
    } catch (IllegalArgumentException e) {
      return new Result.Unclear(e.getMessage());
    }
    for (Mark mark : marks.all()) {
      Optional<Result.Settled> settled = meaning.of(items.get(mark.index()), mark.sign(), intake);
      if (settled.isEmpty()) {
        return new Result.Unclear(
            "a sign before a number means nothing here; type " + (mark.index() + 1));
      }
      facts.addAll(settled.get().facts());
      intake = settled.get().intake();
    }
    return new Result.Settled(facts, intake);
  }
}
