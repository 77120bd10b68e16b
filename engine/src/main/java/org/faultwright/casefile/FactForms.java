package org.faultwright.casefile;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.DisplayText;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.measurement.table.TableProblem;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.BoardId;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.HistoryId;
import org.faultwright.pack.InstrumentId;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.Switch;
import org.faultwright.pack.SymptomId;
import org.faultwright.pack.SymptomValue;
import org.faultwright.pack.format.Block;
import org.faultwright.pack.format.Choice;
import org.faultwright.pack.format.Fields;
import org.faultwright.pack.format.Form;
import org.faultwright.pack.format.FormatRule;
import org.faultwright.pack.format.Forms;
import org.faultwright.pack.format.Ids;
import org.faultwright.pack.format.Key;
import org.faultwright.pack.format.Kind;
import org.faultwright.pack.format.Outcomes;
import org.faultwright.pack.format.Quantities;
import org.faultwright.pack.format.Scope;
import org.faultwright.pack.format.Shape;
import org.faultwright.pack.yaml.YamlNode;
import org.faultwright.pack.yaml.YamlNode.YamlList;
import org.faultwright.pack.yaml.YamlNode.YamlScalar;
import org.faultwright.problem.Nearest;

/** The forms of facts, for one pack. */
final class FactForms {

  /** Facts that are told together, with the label that the case gives them. */
  record Labelled(List<Fact> facts, Optional<YamlScalar> label) {}

  /** The key of the facts of a case. */
  static final String FACTS = "facts";

  /** Instead of an outcome: the step could not be carried out. */
  static final String COULD_NOT_DO = "could-not-do";

  private static final Form<YamlScalar> AS_WRITTEN =
      Forms.scalar("a value", new Shape.Text(), (s, scope) -> Optional.of(s));
  private static final Form<YamlScalar> WORD =
      Forms.scalar("a word", new Shape.Pattern(Ids.SPELLING, false), (s, scope) -> Optional.of(s));

  private static final Key<YamlScalar> LABEL =
      Key.optional(
          "label",
          Forms.scalar(
              "an id",
              new Shape.Pattern(Ids.SPELLING, false),
              (s, scope) -> Ids.wellSpelt(s, scope) ? Optional.of(s) : Optional.empty()),
          "a name that 'decisive' can point at");

  private static final Key<ComplaintId> COMPLAINT =
      Key.required("complaint", Ids.ref(Kind.COMPLAINT, ComplaintId::new), "the complaint");
  private static final Key<Boolean> REPORTED =
      Key.optional(
          "is",
          Forms.word(Map.entry("reported", true), Map.entry("denied", false)),
          "reported or denied");
  private static final Key<HistoryId> HISTORY =
      Key.required("history", Ids.ref(Kind.HISTORY, HistoryId::new), "the history");
  private static final Key<Boolean> SAID =
      Key.optional("said", Forms.YES_NO, "what the customer says");
  private static final Key<Boolean> SEEN =
      Key.optional("seen", Forms.YES_NO, "what we see of its traces");
  private static final Key<SymptomId> SYMPTOM =
      Key.required("symptom", Ids.ref(Kind.SYMPTOM, SymptomId::new), "the symptom");
  private static final Key<SymptomValue> SYMPTOM_IS =
      Key.required(
          "is",
          Forms.word(
              Map.entry("present", SymptomValue.PRESENT),
              Map.entry("absent", SymptomValue.ABSENT),
              Map.entry("sometimes", SymptomValue.SOMETIMES),
              Map.entry("not-seen", SymptomValue.NOT_SEEN),
              Map.entry("not-known", SymptomValue.NOT_KNOWN)),
          "present, absent, sometimes, not-seen or not-known");
  private static final Key<StepId> OUTCOME =
      Key.required("outcome", Ids.ref(Kind.STEP, StepId::new), "the step");
  private static final Key<YamlScalar> OUTCOME_IS =
      Key.required("is", WORD, "positive, negative, an outcome's own name, or could-not-do");
  private static final Key<String> WHY =
      Key.optional("why", Forms.TEXT, "why it could not be done");
  private static final Key<PointId> READING =
      Key.required("reading", Ids.ref(Kind.POINT, PointId::new), "the point");
  private static final Key<YamlScalar> VALUE =
      Key.optional("value", AS_WRITTEN, "the value with its unit, or OL");
  private static final Key<YamlScalar> READS =
      Key.optional("is", WORD, "a state of the point that was seen without a number");
  private static final Key<YamlScalar> UNCERTAINTY =
      Key.optional("uncertainty", AS_WRITTEN, "standard uncertainty, with its unit");
  private static final Key<String> LEADS =
      Key.optional("leads", Forms.TEXT, "how the leads were put");
  private static final Key<InstrumentId> INSTRUMENT =
      Key.optional(
          "instrument", Ids.ref(Kind.INSTRUMENT, InstrumentId::new), "what was measured with");
  private static final Key<Boolean> ON =
      Key.optional(
          "on",
          Forms.word(Map.entry("device", false), Map.entry("known-good", true)),
          "known-good: on a board known to be good, to compare with");
  private static final Key<BoardId> BOARD =
      Key.optional(
          "board",
          Ids.ref(Kind.BOARD, BoardId::new),
          "the board variant of the known-good board, where it is not that of the device");
  private static final Key<YamlScalar> TEMPERATURE =
      Key.optional("temperature", AS_WRITTEN, "how warm it was, such as 25 °C");
  private static final Key<StepId> PINS =
      Key.required(
          "pins", Ids.ref(Kind.STEP, StepId::new), "the step whose pins were read in one go");
  private static final Key<Map<YamlScalar, YamlScalar>> VALUES =
      Key.required(
          "values",
          Ids.map((s, scope) -> Optional.of(s), AS_WRITTEN),
          "what each pin reads, by its number, net or id");
  private static final Key<Optional<PinTable.Way>> TURNED =
      Key.optional(
          "turned",
          Forms.word(
              Map.entry("no", Optional.<PinTable.Way>empty()),
              Map.entry("from-the-other-end", Optional.of(PinTable.Way.FROM_THE_OTHER_END)),
              Map.entry("rows-swapped", Optional.of(PinTable.Way.ROWS_SWAPPED)),
              Map.entry("halves-swapped", Optional.of(PinTable.Way.HALVES_SWAPPED))),
          "how the pins were counted wrongly; no: that has been looked at");
  private static final Key<StepId> DID =
      Key.required("did", Ids.ref(Kind.STEP, StepId::new), "the step that was carried out");
  private static final Key<String> GRADE =
      Key.optional("grade", Forms.TEXT, "new, pulled, refurbished");
  private static final Key<String> BATCH = Key.optional("batch", Forms.TEXT, "its batch");
  private static final Key<Fact.PartUsed> PART =
      Key.optional(
          "part",
          Forms.built(
              Block.of("part-used", GRADE, BATCH).atLeastOneOf(GRADE, BATCH),
              f -> Optional.of(new Fact.PartUsed(f.get(GRADE), f.get(BATCH)))),
          "the part that was put in");
  private static final Key<String> BENCH =
      Key.required("bench", Ids.ref(Kind.BENCH_STATE, s -> s), "the bench state");
  private static final Key<ConsentId> CONSENT =
      Key.required("consent", Ids.ref(Kind.CONSENT, ConsentId::new), "what was asked for");
  private static final Key<Boolean> GIVEN =
      Key.optional("given", Forms.YES_NO, "whether it was given; yes where nothing is said");
  private static final Key<String> CHECK =
      Key.required("check", Ids.spelt(s -> s), "what was checked, by a short name: camera");
  private static final Key<Fact.Checked.Result> CHECK_IS =
      Key.required(
          "is",
          Forms.word(
              Map.entry("works", Fact.Checked.Result.WORKS),
              Map.entry("faulty", Fact.Checked.Result.FAULTY),
              Map.entry("not-tested", Fact.Checked.Result.NOT_TESTED),
              Map.entry("cannot-test", Fact.Checked.Result.CANNOT_TEST)),
          "works, faulty, not-tested or cannot-test");
  private static final Key<Boolean> AT_END =
      Key.optional(
          "at",
          Forms.word(Map.entry("intake", false), Map.entry("end", true)),
          "intake, or end; intake where nothing is said");
  private static final Key<String> NOTE = Key.required("note", Forms.TEXT, "a remark");

  private final Pack pack;
  private final Map<PointId, Point> points = new LinkedHashMap<>();
  private final Form<Labelled> form;

  FactForms(Pack pack) {
    this.pack = pack;
    pack.steps().values().stream()
        .flatMap(s -> s.pinTable().stream())
        .forEach(t -> t.points().forEach(p -> points.put(p.id(), p)));
    this.form =
        Choice.<Labelled>of("fact")
            .or(Block.of("complaint-fact", COMPLAINT, REPORTED, LABEL), labelled(this::complaint))
            .or(
                Block.of("history-fact", HISTORY, SAID, SEEN, LABEL).exactlyOneOf(SAID, SEEN),
                labelled(this::history))
            .or(Block.of("symptom-fact", SYMPTOM, SYMPTOM_IS, LABEL), labelled(this::symptom))
            .or(Block.of("outcome-fact", OUTCOME, OUTCOME_IS, WHY, LABEL), labelled(this::outcome))
            .or(
                Block.of(
                        "reading-fact",
                        READING,
                        VALUE,
                        READS,
                        UNCERTAINTY,
                        LEADS,
                        INSTRUMENT,
                        ON,
                        BOARD,
                        TEMPERATURE,
                        LABEL)
                    .exactlyOneOf(VALUE, READS),
                labelled(this::reading))
            .or(
                Block.of(
                    "pins-fact",
                    PINS,
                    VALUES,
                    TURNED,
                    LEADS,
                    INSTRUMENT,
                    ON,
                    BOARD,
                    TEMPERATURE,
                    LABEL),
                this::pins)
            .or(Block.of("did-fact", DID, PART, LABEL), labelled(this::did))
            .or(Block.of("bench-fact", BENCH, LABEL), labelled(this::bench))
            .or(Block.of("consent-fact", CONSENT, GIVEN, LABEL), labelled(this::consent))
            .or(
                Block.of("check-fact", CHECK, CHECK_IS, AT_END, LABEL),
                labelled(
                    f ->
                        f.spoilt(AT_END)
                            ? Optional.empty()
                            : Optional.of(
                                new Fact.Checked(
                                    f.need(CHECK), f.get(AT_END).orElse(false), f.need(CHECK_IS)))))
            .or(Block.of("note-fact", NOTE, LABEL), labelled(this::note));
  }

  /** A list of facts, each called by its number in messages; what cannot be read stays empty. */
  Form<List<Optional<Labelled>>> list() {
    Form<Labelled> fact = form;
    return new Form<>() {
      @Override
      public Optional<List<Optional<Labelled>>> read(YamlNode node, Scope scope) {
        if (!(node instanceof YamlList list)) {
          Forms.wrongType(node, scope, "a list of facts, each with a dash before it");
          return Optional.empty();
        }
        List<Optional<Labelled>> all = new ArrayList<>();
        for (YamlNode item : list.items()) {
          all.add(fact.read(item, scope.of("fact " + (all.size() + 1))));
        }
        return Optional.of(all);
      }

      @Override
      public Shape shape() {
        return new Shape.ListOf(fact.shape(), 0);
      }
    };
  }

  private interface Build {
    Optional<Fact> of(Fields f);
  }

  private static Function<Fields, Optional<Labelled>> labelled(Build build) {
    return f ->
        f.complete()
            ? build.of(f).map(fact -> new Labelled(List.of(fact), f.get(LABEL)))
            : Optional.empty();
  }

  private Optional<Fact> complaint(Fields f) {
    return Optional.of(new Fact.Complained(f.need(COMPLAINT), f.get(REPORTED).orElse(true)));
  }

  private Optional<Fact> history(Fields f) {
    return f.get(SAID)
        .<Fact>map(said -> new Fact.HistorySaid(f.need(HISTORY), said))
        .or(() -> f.get(SEEN).map(seen -> new Fact.HistorySeen(f.need(HISTORY), seen)));
  }

  private Optional<Fact> symptom(Fields f) {
    return Optional.of(new Fact.SymptomNoted(f.need(SYMPTOM), f.need(SYMPTOM_IS)));
  }

  private Optional<Fact> outcome(Fields f) {
    StepId id = f.need(OUTCOME);
    YamlScalar word = f.need(OUTCOME_IS);
    if (word.text().equals(COULD_NOT_DO)) {
      return Optional.of(new Fact.CouldNotDo(id, f.get(WHY).orElse("")));
    }
    if (f.wrote(WHY)) {
      f.scope()
          .error(
              FormatRule.KEY_NOT_NEEDED,
              f.keyAt(WHY),
              "'why' goes with could-not-do, and " + f.scope().owner() + " says " + word.word(),
              "put it into a fact of its own: {note: ...}");
      return Optional.empty();
    }
    Step step = pack.steps().get(id);
    List<String> outcomes =
        step.shows()
            .map(s -> s.outcomes().stream().map(OutcomeId::value).toList())
            .orElse(List.of());
    return Outcomes.resolve(id.value(), outcomes, instead(step), word, f.scope())
        .map(o -> new Fact.OutcomeSeen(id, new OutcomeId(o)));
  }

  private static String instead(Step step) {
    return step.pinTable()
        .map(
            t ->
                "it takes readings: write {reading: ..., value: ...}, with a point of "
                    + String.join(", ", t.points().stream().map(p -> p.id().value()).toList()))
        .orElse("to say that it was carried out, write {did: " + step.id() + "}");
  }

  private Optional<Fact> reading(Fields f) {
    Point point = points.get(f.need(READING));
    Optional<ReadingValue> value =
        f.get(READS).isPresent()
            ? named(point, f.get(READS).get(), f)
            : f.get(VALUE).flatMap(text -> shown(point, text, f));
    OptionalDouble uncertainty = OptionalDouble.empty();
    if (f.wrote(UNCERTAINTY)) {
      Dimension kind = point.reference().dimension();
      Optional<Quantity> u =
          f.get(UNCERTAINTY).flatMap(s -> Quantities.of(s, kind, f.scope().at("uncertainty")));
      if (u.isEmpty()) {
        return Optional.empty();
      } else if (u.get().si() <= 0) {
        f.scope()
            .error(
                FormatRule.BAD_LIMITS,
                f.at(UNCERTAINTY),
                "'uncertainty' of " + f.scope().owner() + " must be above 0: " + u.get(),
                "leave it out where it is not known");
        return Optional.empty();
      }
      uncertainty = OptionalDouble.of(u.get().si());
    }
    Optional<Fact.Setup> setup = setup(f);
    if (setup.isEmpty() || value.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(new Fact.ReadingTaken(point.id(), value.get(), uncertainty, setup.get()));
  }

  private static Optional<ReadingValue> named(Point point, YamlScalar state, Fields f) {
    List<String> known = point.stateNames();
    if (known.contains(state.text())) {
      return point.named(state.text()).map(named -> named);
    }
    String near = Nearest.didYouMean(state.text(), known);
    f.scope()
        .error(
            FormatRule.UNKNOWN_STATE,
            state.at(),
            "point '" + point.id() + "' has no state " + state.word(),
            near.isEmpty() ? "it has: " + String.join(", ", known) : near);
    return Optional.empty();
  }

  /** What a display showed: with a unit, or bare where the instrument leaves no doubt. */
  private Optional<ReadingValue> shown(Point point, YamlScalar text, Fields f) {
    Dimension kind = point.reference().dimension();
    if (ReadingValue.isOverRange(text.text())) {
      return Optional.of(new ReadingValue.OverRange(kind));
    }
    try {
      boolean diode =
          f.get(INSTRUMENT)
              .or(() -> stepOf(point).pinTable().flatMap(Step.PinTable::instrument))
              .map(pack.instruments()::get)
              .map(i -> i.meter().diode())
              .orElse(false);
      return Optional.of(DisplayText.parse(text.text(), kind, diode, Optional.empty()));
    } catch (IllegalArgumentException e) {
      Optional<ReadingValue.Named> named = point.named(text.text());
      if (named.isPresent()) {
        f.scope()
            .error(
                FormatRule.BAD_QUANTITY,
                text.at(),
                "'value' of " + f.scope().owner() + " must be a number, and here is a state",
                "what was seen without a number goes with 'is': " + named.get().state());
        return Optional.empty();
      }
      return Quantities.of(text, kind, f.scope().at("value")).map(ReadingValue.Measured::new);
    }
  }

  private Step stepOf(Point point) {
    return pack.steps().values().stream()
        .filter(s -> s.pinTable().filter(t -> t.points().contains(point)).isPresent())
        .findFirst()
        .orElseThrow();
  }

  private static Optional<Fact.Setup> setup(Fields f) {
    Optional<Quantity> celsius =
        f.get(TEMPERATURE)
            .flatMap(
                s -> Quantities.of(s, Dimension.TEMPERATURE, f.scope().at(TEMPERATURE.name())));
    if (f.spoilt(INSTRUMENT)
        || f.spoilt(ON)
        || f.spoilt(BOARD)
        || f.wrote(TEMPERATURE) && celsius.isEmpty()) {
      return Optional.empty();
    }
    if (f.get(BOARD).isPresent() && !f.get(ON).orElse(false)) {
      f.scope()
          .error(
              FormatRule.KEY_NOT_NEEDED,
              f.keyAt(BOARD),
              "'board' of a reading goes with 'on: known-good'",
              "the board of the device stands at the head of the case");
      return Optional.empty();
    }
    return Optional.of(
        new Fact.Setup(
            f.get(LEADS),
            f.get(INSTRUMENT),
            f.get(ON).orElse(false),
            celsius.map(q -> OptionalDouble.of(q.si())).orElse(OptionalDouble.empty()),
            f.get(BOARD)));
  }

  private Optional<Labelled> pins(Fields f) {
    Optional<Fact.Setup> setup = setup(f);
    if (!f.complete() || f.spoilt(TURNED) || setup.isEmpty()) {
      return Optional.empty();
    }
    Step step = pack.steps().get(f.need(PINS));
    if (step.pinTable().isEmpty()) {
      f.scope()
          .error(
              CaseRule.PIN_TABLE.id(),
              f.at(PINS),
              "no pins are read in step '" + step.id() + "'",
              "to say how it came out, write {outcome: " + step.id() + ", is: ...}");
      return Optional.empty();
    }
    List<YamlScalar> keys = new ArrayList<>(f.need(VALUES).keySet());
    Map<String, String> texts = new LinkedHashMap<>();
    f.need(VALUES).forEach((pin, value) -> texts.put(pin.text(), value.text()));
    Optional<PinTable.Way> turned = f.get(TURNED).flatMap(t -> t);
    PinTableReading reading =
        new PinTableReader(pack, step.id(), Optional.empty()).read(texts, turned);
    if (reading instanceof PinTableReading.Refused refused) {
      for (TableProblem p : refused.problems()) {
        YamlScalar pin = keys.get(p.row() - 1);
        YamlScalar at = p.column() == 1 ? pin : f.need(VALUES).get(pin);
        f.scope().error(CaseRule.PIN_TABLE.id(), at.at(), p.message(), p.wayOut());
      }
      return Optional.empty();
    }
    PinTable table = ((PinTableReading.Readable) reading).table();
    table
        .turned()
        .filter(t -> !f.wrote(TURNED))
        .ifPresent(
            t ->
                f.scope()
                    .warning(
                        CaseRule.PIN_TABLE.id(),
                        f.keyAt(VALUES),
                        "the table fits far better if " + t.way().words(),
                        "if so, add 'turned: " + t.way().key() + "', else 'turned: no'"));
    List<Fact> facts = new ArrayList<>(table.facts(setup.get()));
    return Optional.of(new Labelled(facts, f.get(LABEL)));
  }

  private Optional<Fact> did(Fields f) {
    return Optional.of(new Fact.StepDone(f.need(DID), f.get(PART)));
  }

  private Optional<Fact> bench(Fields f) {
    String name = f.need(BENCH);
    return pack.switches().values().stream()
        .filter(s -> s.id().value().equals(name) || s.offCalled().value().equals(name))
        .findFirst()
        .map(Switch::id)
        .map(id -> new Fact.BenchSet(new BenchState(id, id.value().equals(name))));
  }

  private Optional<Fact> consent(Fields f) {
    return Optional.of(new Fact.ConsentAnswered(f.need(CONSENT), f.get(GIVEN).orElse(true)));
  }

  private Optional<Fact> note(Fields f) {
    return Optional.of(new Fact.Noted(f.need(NOTE)));
  }
}
