package org.faultwright.cli.dialogue;

import java.util.List;
import java.util.OptionalDouble;
import java.util.function.BiFunction;
import java.util.function.Function;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.Intake;
import org.faultwright.cli.text.Asked;
import org.faultwright.cli.text.Figures;

/** An amount of money. */
record Amount(
    String words,
    Function<Intake, OptionalDouble> now,
    BiFunction<Intake, OptionalDouble, Intake> settle)
    implements Settling {

  private static final double MOST = 1e9;

  @Override
  public Asked asked(CaseFile known, String notice) {
    OptionalDouble current = now.apply(known.intake());
    String left = current.isPresent() ? ": " + Figures.money(current.getAsDouble()) : " open";
    return new Asked(
        words, List.of(), List.of("an amount such as 120", "enter leaves it" + left), notice);
  }

  @Override
  public Result hear(CaseFile known, String typed) {
    String text = typed.strip().replace(',', '.');
    if (!text.matches("[0-9]{1,10}([.][0-9]{1,2})?") || Double.parseDouble(text) > MOST) {
      return new Result.Unclear(
          "'" + typed.strip() + "' is no amount; type a bare number such as 120 or 79.50");
    }
    return new Result.Settled(
        List.of(), settle.apply(known.intake(), OptionalDouble.of(Double.parseDouble(text))));
  }
}
