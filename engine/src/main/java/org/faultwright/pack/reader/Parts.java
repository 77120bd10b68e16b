package org.faultwright.pack.reader;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Part;
import org.faultwright.pack.PartId;
import org.faultwright.pack.StepId;
import org.faultwright.pack.format.Block;
import org.faultwright.pack.format.Form;
import org.faultwright.pack.format.Forms;
import org.faultwright.pack.format.Ids;
import org.faultwright.pack.format.Key;
import org.faultwright.pack.format.Kind;
import org.faultwright.pack.format.Numbers;

/** The section of parts. */
final class Parts {

  private static final Key<String> TITLE = Key.optional("title", Forms.TEXT, "what it is");
  private static final Key<Set<CauseId>> CARRIES =
      Key.required("carries", Forms.set(Ids.CAUSE), "the causes that go away with it");
  private static final Key<Double> PRICE = Key.optional("price", Numbers.MONEY, "its price");
  private static final Key<Boolean> PAIRED =
      Key.optional("paired", Forms.YES_NO, "whether a new one must be paired with the device");
  private static final Key<Duration> LEAD_TIME =
      Key.optional("lead-time", Numbers.TIME_FORM, "how long it takes to come, such as 2 d");
  private static final Key<Set<StepId>> RESEATS =
      Key.optional(
          "reseats",
          Forms.set(Ids.ref(Kind.STEP, StepId::new)),
          "steps whose changes come along with replacing it");
  private static final Key<String> LEAVES =
      Key.optional("leaves", Forms.TEXT, "what stays limited afterwards");
  private static final Key<String> AFTERWARDS =
      Key.optional("afterwards", Forms.TEXT, "what must be done afterwards");

  static final Form<List<Part>> FORM =
      Section.of(
          Kind.PART,
          Block.of("part", TITLE, CARRIES, PRICE, PAIRED, LEAD_TIME, RESEATS, LEAVES, AFTERWARDS),
          (id, f) ->
              Optional.of(
                  new Part(
                      new PartId(id),
                      f.get(TITLE).orElse(Section.words(id)),
                      f.need(CARRIES),
                      f.get(PRICE).map(OptionalDouble::of).orElse(OptionalDouble.empty()),
                      f.get(PAIRED).orElse(false),
                      f.get(LEAD_TIME),
                      List.copyOf(f.get(RESEATS).orElse(Set.of())),
                      f.get(LEAVES),
                      f.get(AFTERWARDS),
                      Part.badNew(new PartId(id)))));

  private Parts() {}
}
