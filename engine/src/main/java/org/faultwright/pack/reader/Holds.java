package org.faultwright.pack.reader;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.faultwright.pack.ActivityId;
import org.faultwright.pack.Clash;
import org.faultwright.pack.Condition;
import org.faultwright.pack.Hold;
import org.faultwright.pack.HoldId;
import org.faultwright.pack.format.Block;
import org.faultwright.pack.format.Form;
import org.faultwright.pack.format.Forms;
import org.faultwright.pack.format.Key;
import org.faultwright.pack.format.Kind;

/** The section of holds and the list of clashes. */
final class Holds {

  private static final Key<Condition> WHEN =
      Key.required("when", Conditions.FORM, "what raises it");
  private static final Key<Set<ActivityId>> FORBIDS =
      Key.required("forbids", Bench.ACTIVITIES, "the activities it forbids");
  private static final Key<Condition> UNTIL =
      Key.required("until", Conditions.FORM, "what lifts it");
  private static final Key<String> SAYS =
      Key.required("says", Forms.TEXT, "what the technician reads");

  static final Form<List<Hold>> FORM =
      Section.of(
          Kind.HOLD,
          Block.of("hold", WHEN, FORBIDS, UNTIL, SAYS),
          (id, f) ->
              Optional.of(
                  new Hold(
                      new HoldId(id), f.need(WHEN), f.need(FORBIDS), f.need(UNTIL), f.need(SAYS))));

  private static final Key<List<Condition>> TOGETHER =
      Key.required(
          "together", Forms.some(Forms.list(Conditions.FORM)), "facts that cannot hold together");

  static final Form<List<Clash>> CLASHES =
      Forms.list(
          Forms.built(
              Block.of("clash", TOGETHER, SAYS),
              f ->
                  f.complete()
                      ? Optional.of(new Clash(f.need(TOGETHER), f.need(SAYS)))
                      : Optional.empty()));

  private Holds() {}
}
