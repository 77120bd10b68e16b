package org.faultwright.cli.text;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.faultwright.pack.Limit;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.planning.Shop;

/** What a pack says of a step, in lines for whoever does it. */
public final class StepWords {

  private StepWords() {}

  /** Something about a step: {@code tools}, {@code how}, {@code read}. */
  public record Line(String label, String text) {}

  /** Tools, the part, how it is done and what is read, in this order. */
  public static List<Line> details(Pack pack, Shop shop, Step step) {
    List<Line> lines = new ArrayList<>(tools(pack, shop, step));
    lines.addAll(how(pack, step));
    lines.addAll(read(pack, step));
    return lines;
  }

  /** The tools by their names, and the part with what is to be known about it. */
  static List<Line> tools(Pack pack, Shop shop, Step step) {
    List<Line> lines = new ArrayList<>();
    List<String> tools =
        step.conditions().tools().stream().map(t -> Wording.brief(pack.tools().get(t))).toList();
    if (!tools.isEmpty()) {
      lines.add(new Line("tools", String.join("; ", tools)));
    }
    step.swap()
        .map(swap -> pack.parts().get(swap.part()))
        .ifPresent(
            part -> {
              lines.add(
                  new Line(
                      "part",
                      part.title()
                          + price(shop.statedPriceOf(part))
                          + part.leadTime()
                              .map(t -> ", takes " + Figures.time(t) + " to come")
                              .orElse("")));
              part.leaves().ifPresent(words -> lines.add(new Line("note", words)));
              part.afterwards().ifPresent(words -> lines.add(new Line("after", words)));
            });
    return lines;
  }

  private static String price(OptionalDouble stated) {
    return stated.isPresent() ? ", cost " + Figures.money(stated.getAsDouble()) : "";
  }

  /** The most that may be applied. */
  static List<String> limits(Pack pack, Step step) {
    return step.limits().stream().map(limit -> limit(pack, limit)).toList();
  }

  private static String limit(Pack pack, Limit limit) {
    return limit.most()
        + limit.rail().map(rail -> " on: " + pack.rails().get(rail).title()).orElse("");
  }

  /** How it is done, and with what it is measured. */
  static List<Line> how(Pack pack, Step step) {
    List<Line> lines = new ArrayList<>();
    if (!step.how().isEmpty()) {
      lines.add(new Line("how", step.how()));
    }
    step.pinTable()
        .or(() -> step.compares().flatMap(c -> pack.stepOf(c.point())).flatMap(Step::pinTable))
        .ifPresent(
            table -> {
              table.leads().ifPresent(l -> lines.add(new Line("leads", l.replace('-', ' '))));
              table
                  .instrument()
                  .map(id -> pack.instruments().get(id))
                  .ifPresent(i -> lines.add(new Line("with", i.title())));
            });
    return lines;
  }

  /** Each point with where its reading lies when all is well. */
  static List<Line> read(Pack pack, Step step) {
    return pack.readIn(step).stream()
        .map(
            p -> new Line("read", NextStep.point(p) + ": normal " + NextStep.normal(p.reference())))
        .toList();
  }
}
