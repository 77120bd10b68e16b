package org.faultwright.cli.dialogue;

import java.util.ArrayList;
import java.util.List;
import java.util.function.BiFunction;
import java.util.function.Function;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.Intake;
import org.faultwright.cli.text.Asked;

/** One of several, by number. */
record OneOfList(
    String words,
    List<String> items,
    Function<Intake, String> now,
    BiFunction<Intake, Integer, Intake> choose)
    implements Settling {

  @Override
  public Asked asked(CaseFile known, String notice) {
    String current = now.apply(known.intake());
    List<String> keys = new ArrayList<>();
    keys.add("enter leaves it" + (current.isEmpty() ? " open" : ": " + current));
    return new Asked(words, items, keys, notice);
  }

  @Override
  public Result hear(CaseFile known, String typed) {
    String text = typed.strip();
    if (text.matches("[0-9]{1,3}")) {
      int number = Integer.parseInt(text);
      if (number >= 1 && number <= items.size()) {
        return new Result.Settled(List.of(), choose.apply(known.intake(), number - 1));
      }
    }
    List<String> begun =
        items.stream().filter(i -> i.regionMatches(true, 0, text, 0, text.length())).toList();
    if (begun.size() == 1) {
      return new Result.Settled(
          List.of(), choose.apply(known.intake(), items.indexOf(begun.get(0))));
    }
    return new Result.Unclear("'" + text + "' is none of them; type 1 to " + items.size());
  }
}
