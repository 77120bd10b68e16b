package org.faultwright.pack.reader;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.faultwright.pack.Chance;
import org.faultwright.pack.Event;
import org.faultwright.pack.EventId;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.format.Block;
import org.faultwright.pack.format.Chances;
import org.faultwright.pack.format.Fields;
import org.faultwright.pack.format.Form;
import org.faultwright.pack.format.FormatRule;
import org.faultwright.pack.format.Forms;
import org.faultwright.pack.format.Key;
import org.faultwright.pack.format.Kind;
import org.faultwright.pack.format.Numbers;

/** The section of events. */
final class Events {

  private record Vote(int count, Map<NodeId, Chance> inputs) {}

  private static final Key<String> TITLE = Key.optional("title", Forms.TEXT, "what it is");
  private static final Key<Map<NodeId, Chance>> ANY =
      Key.optional("any", Inputs.FORM, "inputs of which one is enough");
  private static final Key<Map<NodeId, Chance>> ALL =
      Key.optional("all", Inputs.FORM, "inputs that must all act");
  private static final Key<Map<NodeId, Chance>> NONE =
      Key.optional("none", Inputs.FORM, "inputs none of which may act");
  private static final Key<Integer> COUNT =
      Key.required("count", Numbers.COUNT, "how many must act");
  private static final Key<Map<NodeId, Chance>> OF = Key.required("of", Inputs.FORM, "the inputs");
  private static final Key<Vote> AT_LEAST =
      Key.optional(
          "at-least",
          Forms.built(Block.of("at-least", COUNT, OF), Events::vote),
          "a number of inputs that must act: {count: 2, of: [...]}");
  private static final Key<Chance> OTHERWISE =
      Key.optional("otherwise", Chances.chance(0), "probability that it happens without inputs");

  /** The section. */
  static final Form<List<Event>> FORM =
      Section.of(
          Kind.EVENT,
          Block.of("event", TITLE, ANY, ALL, NONE, AT_LEAST, OTHERWISE)
              .withBasis()
              .exactlyOneOf(ANY, ALL, NONE, AT_LEAST),
          Events::event);

  private Events() {}

  private static Optional<Vote> vote(Fields f) {
    if (!f.complete()) {
      return Optional.empty();
    }
    int count = f.need(COUNT);
    int inputs = f.need(OF).size();
    if (count < 1 || count > inputs) {
      f.scope()
          .error(
              FormatRule.BAD_VOTE,
              f.at(COUNT),
              "'count' of "
                  + f.scope().owner()
                  + " must be from 1 to the number of inputs, "
                  + inputs
                  + ": "
                  + count,
              "write a number from 1 to " + inputs);
      return Optional.empty();
    }
    return Optional.of(new Vote(count, f.need(OF)));
  }

  private static Optional<Event> event(String id, Fields f) {
    if (f.spoilt(OTHERWISE)) {
      return Optional.empty();
    }
    Event.Combination combination;
    Optional<Map<NodeId, Chance>> inputs;
    if (f.wrote(ANY)) {
      combination = new Event.Combination.Any();
      inputs = f.get(ANY);
    } else if (f.wrote(ALL)) {
      combination = new Event.Combination.All();
      inputs = f.get(ALL);
    } else if (f.wrote(NONE)) {
      combination = new Event.Combination.None();
      inputs = f.get(NONE);
    } else if (f.get(AT_LEAST).isPresent()) {
      combination = new Event.Combination.AtLeast(f.need(AT_LEAST).count());
      inputs = Optional.of(f.need(AT_LEAST).inputs());
    } else {
      return Optional.empty();
    }
    return inputs.map(
        in ->
            new Event(
                new EventId(id),
                f.get(TITLE).orElse(Section.words(id)),
                combination,
                in,
                f.get(OTHERWISE).orElse(Chance.byDefinition(0))));
  }
}
