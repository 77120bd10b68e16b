package org.faultwright.pack.reader;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import org.faultwright.measurement.Quantity;
import org.faultwright.pack.ActivityId;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.Caution;
import org.faultwright.pack.CautionId;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.Effort;
import org.faultwright.pack.Rail;
import org.faultwright.pack.RailId;
import org.faultwright.pack.Source;
import org.faultwright.pack.SourceId;
import org.faultwright.pack.Switch;
import org.faultwright.pack.SwitchId;
import org.faultwright.pack.ToolId;
import org.faultwright.pack.format.BasisForm;
import org.faultwright.pack.format.Block;
import org.faultwright.pack.format.Fields;
import org.faultwright.pack.format.Form;
import org.faultwright.pack.format.Forms;
import org.faultwright.pack.format.Ids;
import org.faultwright.pack.format.Key;
import org.faultwright.pack.format.Kind;
import org.faultwright.pack.format.Numbers;
import org.faultwright.pack.format.Quantities;

/** Sections about the bench: sources, switches, instruments, cautions, rails. */
final class Bench {

  /** Something that has an id and words. */
  record Worded(String id, String words) {}

  private static final Key<String> TITLE = Key.optional("title", Forms.TEXT, "what it is");

  // Sources.
  private static final Key<String> EDITION =
      Key.optional("edition", Forms.TEXT, "edition or revision");
  private static final Key<Integer> YEAR = Key.optional("year", Numbers.COUNT, "year");
  private static final Key<String> SECTION =
      Key.optional("section", Forms.TEXT, "section or table");
  private static final Key<String> SOURCE_TITLE = Key.required("title", Forms.TEXT, "its title");

  static final Form<List<Source>> SOURCES =
      Section.of(
          Kind.SOURCE,
          Block.of("a-source", SOURCE_TITLE, EDITION, YEAR, SECTION),
          (id, f) ->
              Optional.of(
                  new Source(
                      new SourceId(id),
                      f.need(SOURCE_TITLE),
                      f.get(EDITION),
                      f.get(YEAR).map(OptionalInt::of).orElse(OptionalInt.empty()),
                      f.get(SECTION))));

  // Switches.
  static final Form<Set<ActivityId>> ACTIVITIES =
      Forms.set(Ids.ref(Kind.ACTIVITY, ActivityId::new));
  static final Form<Set<CautionId>> CAUTIONS = Forms.set(Ids.ref(Kind.CAUTION, CautionId::new));
  static final Form<Set<ConsentId>> CONSENTS = Forms.set(Ids.ref(Kind.CONSENT, ConsentId::new));
  static final Form<Set<BenchState>> BENCH_STATES = Forms.set(BenchStates.FORM);

  private static final Key<Effort> MINUTES =
      Key.required("minutes", Numbers.EFFORT, "time it takes");
  private static final Key<Set<BenchState>> NEEDS =
      Key.optional("needs", BENCH_STATES, "positions of other switches that must hold meanwhile");
  private static final Key<Set<ConsentId>> CONSENT =
      Key.optional("consent", CONSENTS, "what the customer must agree to");
  private static final Key<Set<ActivityId>> DOES =
      Key.optional("does", ACTIVITIES, "activities it involves");
  private static final Key<Set<CautionId>> SHOWN =
      Key.optional("cautions", CAUTIONS, "cautions shown beside it");
  private static final Key<Double> COST =
      Key.optional("cost", Numbers.MONEY, "cost of what is used up");

  private static final Form<Optional<Switch.Turn>> TURN =
      Forms.scalarOr(
          Forms.word(Map.entry("never", Optional.empty())),
          Forms.built(
              Block.of("turn", MINUTES, NEEDS, CONSENT, DOES, SHOWN, COST),
              f -> f.complete() ? Optional.of(Optional.of(turn(f))) : Optional.empty()));

  private static final Key<String> OFF_CALLED =
      Key.required(
          "off-called", Ids.spelt(s -> s), "the name of the off position, such as device-closed");
  private static final Key<Boolean> START =
      Key.required(
          "start",
          Forms.word(Map.entry("on", true), Map.entry("off", false)),
          "on or off: its position when a device is taken in");
  private static final Key<Optional<Switch.Turn>> TURN_ON =
      Key.required("turn-on", TURN, "how it is turned on, or never");
  private static final Key<Optional<Switch.Turn>> TURN_OFF =
      Key.required("turn-off", TURN, "how it is turned off, or never");
  private static final Key<Set<ActivityId>> WHILE_ON =
      Key.optional("while-on", ACTIVITIES, "activities that go on while it is on");
  private static final Key<Boolean> CLOSED_WHEN_OFF =
      Key.optional(
          "closed-when-off",
          Forms.YES_NO,
          "whether it must be off for the device to count as closed");

  static final Block SWITCH_BLOCK =
      Block.of("switch", TITLE, OFF_CALLED, START, TURN_ON, TURN_OFF, WHILE_ON, CLOSED_WHEN_OFF);

  static final Form<List<Switch>> SWITCHES =
      Section.of(
          Kind.SWITCH,
          SWITCH_BLOCK,
          (id, f) ->
              Optional.of(
                  new Switch(
                      new SwitchId(id),
                      f.get(TITLE).orElse(Section.words(id)),
                      new SwitchId(f.need(OFF_CALLED)),
                      f.need(START),
                      f.need(TURN_ON),
                      f.need(TURN_OFF),
                      f.get(WHILE_ON).orElse(Set.of()),
                      f.get(CLOSED_WHEN_OFF).orElse(false))));

  // Rails.
  private static final Key<Quantity> NOMINAL =
      Key.required("nominal", Quantities.VOLTAGE, "its nominal voltage");

  static final Form<List<Rail>> RAILS =
      Section.of(
          Kind.RAIL,
          Block.of("rail", TITLE, NOMINAL).withBasis(),
          (id, f) ->
              Optional.of(
                  new Rail(
                      new RailId(id),
                      f.get(TITLE).orElse(Section.words(id)),
                      f.need(NOMINAL),
                      BasisForm.needed(f.scope().at(NOMINAL.name()), f.at(NOMINAL)))));

  // Words.
  static final Form<List<Caution>> CAUTION_WORDS =
      Section.ofWords(Kind.CAUTION, (id, words) -> new Caution(new CautionId(id), words));
  static final Form<List<Worded>> TOOLS = Section.ofWords(Kind.TOOL, Worded::new);
  static final Form<List<Worded>> CONSENT_WORDS = Section.ofWords(Kind.CONSENT, Worded::new);
  static final Form<List<Worded>> ACTIVITY_WORDS = Section.ofWords(Kind.ACTIVITY, Worded::new);

  /** References to tools. */
  static final Form<Set<ToolId>> TOOL_IDS = Forms.set(Ids.ref(Kind.TOOL, ToolId::new));

  private Bench() {}

  private static Switch.Turn turn(Fields f) {
    return new Switch.Turn(
        f.need(MINUTES),
        f.get(NEEDS).orElse(Set.of()),
        f.get(CONSENT).orElse(Set.of()),
        f.get(DOES).orElse(Set.of()),
        f.get(SHOWN).orElse(Set.of()),
        f.get(COST).orElse(0.0));
  }
}
