package org.faultwright.cli.text;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.faultwright.casefile.Intake;
import org.faultwright.pack.Pack;
import org.faultwright.planning.Quote;
import org.faultwright.planning.RepairOrNot;
import org.faultwright.planning.RepairOrNot.Turning;
import org.faultwright.planning.RepairOrNot.Verdict;

/** Whether a repair is worth it, and what to tell the customer. */
public final class RepairOrNotText {

  /** What happens in fewer cases is not worth a word. */
  private static final double RARE = 0.005;

  private final Page page;
  private final Pack pack;

  /** Writes on the page about a device of the pack. */
  public RepairOrNotText(Page page, Pack pack) {
    this.page = page;
    this.pack = pack;
  }

  /** Writes it. */
  public void write(RepairOrNot asked, Intake intake) {
    page.heading("REPAIR OR NOT");
    page.labelled("worth it", Ink.PLAIN, worth(asked));
    page.labelled("tell", Ink.PLAIN, tell(asked.quote()));
    page.labelled("rests on", Ink.PLAIN, restsOn(pack, asked.quote(), intake));
  }

  /** From which value of the device on, in a sentence without a full stop. */
  public static String worth(RepairOrNot asked) {
    String stated =
        asked.deviceValue().isPresent()
            ? " (stated: " + Figures.money(asked.deviceValue().getAsDouble()) + ")"
            : "; the case does not say what it is worth (device-value)";
    if (asked.turning() instanceof Turning.From from) {
      String value = Figures.money(from.deviceValue());
      if (asked.verdict() == Verdict.RETURN) {
        return (from.isExact()
                ? "not worth repairing: only from a device value of " + value + " on"
                : "not worth repairing by any plan found: from a device value of about "
                    + value
                    + " on, at the most")
            + stated
            + "; give it back as it is";
      }
      return from.isExact()
          ? "worth repairing from a device value of " + value + " on" + stated
          : "worth repairing from a device value of about "
              + value
              + " on"
              + stated
              + ", by the plans found; a better plan could pay below";
    } else if (asked.turning() instanceof Turning.Always) {
      return "worth repairing whatever the device is worth";
    }
    Turning.Never never = (Turning.Never) asked.turning();
    String nothing =
        never.isExact()
            ? "not worth repairing: nothing that could be done here pays, at any value"
            : "not worth repairing: no plan was found that pays, at any value";
    String from = Figures.money(never.sendOnFrom());
    return switch (asked.verdict()) {
      case SEND_ON -> nothing + stated + "; send it on, which pays from " + from + " on";
      case RETURN -> nothing + stated + "; give it back, sending it on pays from " + from + " on";
      default -> nothing + "; sending it on pays from a device value of " + from + " on" + stated;
    };
  }

  /** What the customer can be told, as a range. */
  public static String tell(Quote quote) {
    String half = Figures.money(quote.half());
    String most = Figures.money(quote.nineInTen());
    String range =
        half.equals(most)
            ? "in nine cases of ten the work costs no more than " + most
            : "in half of the cases the work costs no more than "
                + half
                + ", in nine of ten no more than "
                + most;
    OptionalDouble ceiling = quote.ceiling();
    String above =
        ceiling.isEmpty()
            ? ""
            : quote.pAboveCeiling() < RARE
                ? "; it stays below the ceiling of " + Figures.money(ceiling.getAsDouble())
                : "; in "
                    + Figures.percent(quote.pAboveCeiling())
                    + " of cases it goes above the ceiling of "
                    + Figures.money(ceiling.getAsDouble())
                    + ", so ask before going on";
    return range + above + "; repaired in " + Figures.percent(quote.pRepaired()) + " of cases";
  }

  /** What the price rests on. */
  public static String restsOn(Pack pack, Quote quote, Intake intake) {
    List<String> parts = new ArrayList<>();
    parts.add("the pack's probabilities, the shop's rate, prices and fee of sending on");
    List<String> assumed =
        quote.assumedParts().stream().map(p -> pack.parts().get(p).title()).toList();
    if (!assumed.isEmpty()) {
      parts.add("an assumed price of " + Wording.listed(assumed));
    }
    if (intake.dataValue().isPresent()) {
      parts.add("the data, lost with a device that is returned");
    } else if (intake.irreplaceableData()) {
      parts.add(
          "nothing for the data, since the case does not say what they are worth"
              + " (data-value)");
    }
    return String.join("; ", parts);
  }
}
