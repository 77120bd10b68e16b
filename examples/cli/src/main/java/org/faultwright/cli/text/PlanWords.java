package org.faultwright.cli.text;

import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.faultwright.cli.text.PlanWalk.Act;
import org.faultwright.cli.text.PlanWalk.Finish;
import org.faultwright.cli.text.PlanWalk.Place;
import org.faultwright.cli.text.PlanWalk.Unfollowed;
import org.faultwright.cli.text.PlanWalk.Way;
import org.faultwright.planning.PlanNode.Ending;
import org.faultwright.planning.Spend;

/** A plan's figures and ends in the words that screen and paper share. */
public final class PlanWords {

  /** Goes before what the customer is taken to agree to. */
  public static final String AS_IF_AGREED =
      "This plan takes it that the customer will agree. Ask first:";

  private PlanWords() {}

  /** A time: {@code 26 min}. */
  public static String minutes(double minutes) {
    return Figures.time(Duration.ofMinutes(Math.round(minutes)));
  }

  /** Time and money: {@code 10 min and 3 min waiting, costs 9.5}. */
  public static String takes(Spend spend) {
    List<String> times = new ArrayList<>();
    if (spend.hands() > 0 || spend.waiting() < 1) {
      times.add(spend.hands() < 1 ? "under 1 min" : minutes(spend.hands()));
    }
    if (spend.waiting() >= 1) {
      times.add(minutes(spend.waiting()) + " waiting");
    }
    String time = String.join(" and ", times);
    return spend.money() > 0 ? time + ", costs " + Figures.money(spend.money()) : time;
  }

  /** How a job ends. */
  public static String ending(Ending ending) {
    return switch (ending) {
      case REPAIRED -> "repaired";
      case SENT_ON -> "sent on";
      case RETURNED -> "returned as it is";
    };
  }

  /** What to do at the end. */
  public static String finish(Finish end) {
    return switch (end.ending()) {
      case REPAIRED -> "close up, done";
      case SENT_ON -> "send it on";
      case RETURNED -> "give it back as it is";
    };
  }

  /** Where the plan stops: how often, and what to go on with. */
  public static String beyond(Unfollowed place) {
    return place.next().map(next -> "go on with " + next).orElse("end the job")
        + " (not followed further; "
        + Figures.percent(place.p())
        + " of all cases)";
  }

  /** By which way each act is reached, by its number: {@code after 2: still lost}. */
  public static Map<Integer, String> arrivals(PlanWalk walk) {
    Map<Integer, String> found = new HashMap<>();
    for (Act act : walk.acts()) {
      for (Way way : act.ways()) {
        if (way.to() instanceof Act next) {
          found.put(next.number(), "after " + act.number() + ": " + way.seen());
        }
      }
    }
    return found;
  }

  /** Where a way leads. */
  public static String leads(Place to) {
    if (to instanceof Act act) {
      return "go to " + act.number();
    }
    return to instanceof Finish end ? finish(end) : beyond((Unfollowed) to);
  }
}
