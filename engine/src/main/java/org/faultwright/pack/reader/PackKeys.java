package org.faultwright.pack.reader;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.pack.Basis;
import org.faultwright.pack.BoardId;
import org.faultwright.pack.Cause;
import org.faultwright.pack.Caution;
import org.faultwright.pack.Clash;
import org.faultwright.pack.Complaint;
import org.faultwright.pack.Event;
import org.faultwright.pack.History;
import org.faultwright.pack.Hold;
import org.faultwright.pack.Instrument;
import org.faultwright.pack.OneOf;
import org.faultwright.pack.PackId;
import org.faultwright.pack.Part;
import org.faultwright.pack.Rail;
import org.faultwright.pack.Source;
import org.faultwright.pack.Step;
import org.faultwright.pack.Switch;
import org.faultwright.pack.Symptom;
import org.faultwright.pack.format.Block;
import org.faultwright.pack.format.Form;
import org.faultwright.pack.format.FormatRule;
import org.faultwright.pack.format.Forms;
import org.faultwright.pack.format.Ids;
import org.faultwright.pack.format.Key;
import org.faultwright.pack.format.Kind;
import org.faultwright.pack.format.Scope;
import org.faultwright.pack.format.Shape;
import org.faultwright.pack.yaml.YamlNode.YamlMap;
import org.faultwright.pack.yaml.YamlNode.YamlScalar;

/** The keys of a pack and of a fragment. */
final class PackKeys {

  static final Key<PackId> PACK =
      Key.required(
          "pack",
          Forms.scalar(
              "family/subsystem",
              new Shape.Pattern(Ids.SPELLING + "/" + Ids.SPELLING, false),
              PackKeys::packId),
          "the device family and the subsystem, as in wren-handset/charging");
  static final Key<String> FRAGMENT = Key.required("fragment", Ids.spelt(s -> s), "its name");
  static final Key<String> VERSION =
      Key.required(
          "version",
          Forms.scalar(
              "a version such as 1.0.0",
              new Shape.Pattern("[0-9]+\\.[0-9]+\\.[0-9]+", false),
              PackKeys::version),
          "the version of the pack, such as 1.0.0");
  static final Key<String> FORMAT_KEY =
      Key.required("format", Forms.FORMAT, "the format that it is written in: 1");
  static final Key<String> TITLE = Key.required("title", Forms.TEXT, "what it is about");

  /** What numbers rest on that say nothing else; empty: each block must say. */
  static final Key<Optional<Basis>> BASIS =
      Key.required(
          "basis",
          Forms.word(
              Map.entry("invented", Optional.<Basis>of(new Basis.Invented())),
              Map.entry("common-practice", Optional.of(new Basis.CommonPractice())),
              Map.entry("sources-only", Optional.empty())),
          "what numbers rest on that say nothing else: invented, common-practice or sources-only");

  static final Key<Set<BoardId>> BOARDS =
      Key.optional("boards", Forms.set(Ids.spelt(BoardId::new)), "the board variants");
  static final Key<Set<String>> USES =
      Key.optional(
          "uses", Forms.set(Ids.spelt(s -> s)), "fragments of the shared vocabulary, by name");
  static final Key<Map<String, String>> RENAMED =
      Key.optional(
          "renamed",
          Ids.map((s, scope) -> spelling(s, scope), Ids.spelt(s -> s)),
          "old ids and what they are called now");

  static final Key<List<Source>> SOURCES = section("sources", Bench.SOURCES, "sources of numbers");
  static final Key<List<Switch>> SWITCHES =
      section("switches", Bench.SWITCHES, "independent states of the bench");
  static final Key<List<Instrument>> INSTRUMENTS =
      section("instruments", Instruments.FORM, "what is measured with");
  static final Key<List<Bench.Worded>> TOOLS = section("tools", Bench.TOOLS, "tools, in words");
  static final Key<List<Bench.Worded>> CONSENTS =
      section("consents", Bench.CONSENT_WORDS, "what a customer must agree to, in words");
  static final Key<List<Bench.Worded>> ACTIVITIES =
      section("activities", Bench.ACTIVITY_WORDS, "activities that holds can forbid, in words");
  static final Key<List<Caution>> CAUTIONS =
      section("cautions", Bench.CAUTION_WORDS, "warnings shown beside steps");
  static final Key<List<Rail>> RAILS = section("rails", Bench.RAILS, "supply rails");
  static final Key<List<Part>> PARTS = section("parts", Parts.FORM, "parts that can be replaced");
  static final Key<List<Complaint>> COMPLAINTS =
      section("complaints", Reports.COMPLAINTS, "what customers report");
  static final Key<List<History>> HISTORY =
      section("history", Reports.HISTORY, "what may have happened to the device");
  static final Key<List<Symptom>> SYMPTOMS =
      section("symptoms", Reports.SYMPTOMS, "what is seen or heard without instruments");
  static final Key<List<Cause>> CAUSES = section("causes", Causes.FORM, "what can be wrong");
  static final Key<List<OneOf>> ONE_OF =
      section("one-of", Causes.GROUPS, "groups of causes of which at most one is present");
  static final Key<List<Event>> EVENTS =
      section("events", Events.FORM, "events made of causes and other events");
  static final Key<List<Step>> STEPS = section("steps", Steps.FORM, "what is done at the bench");
  static final Key<List<Hold>> HOLDS =
      section("holds", Holds.FORM, "what forbids activities until something is done");
  static final Key<List<Clash>> CLASHES =
      section("clashes", Holds.CLASHES, "facts that exclude each other");

  /** A pack. */
  static final Block A_PACK =
      Block.of(
              "pack",
              PACK,
              VERSION,
              FORMAT_KEY,
              TITLE,
              BASIS,
              BOARDS,
              USES,
              RENAMED,
              SOURCES,
              SWITCHES,
              INSTRUMENTS,
              TOOLS,
              CONSENTS,
              ACTIVITIES,
              CAUTIONS,
              RAILS,
              PARTS,
              COMPLAINTS,
              HISTORY,
              SYMPTOMS,
              CAUSES,
              ONE_OF,
              EVENTS,
              STEPS,
              HOLDS,
              CLASHES)
          .within(PackKeys::within);

  /** A fragment of the shared vocabulary. */
  static final Block A_FRAGMENT =
      Block.of(
          "fragment",
          FRAGMENT,
          FORMAT_KEY,
          SOURCES,
          SWITCHES,
          INSTRUMENTS,
          TOOLS,
          CONSENTS,
          ACTIVITIES,
          CAUTIONS,
          STEPS,
          HOLDS,
          SYMPTOMS);

  /** The blocks of definitions that others look into before they have been read. */
  static final Map<Kind, Block> BLOCKS =
      Map.of(
          Kind.SWITCH, Bench.SWITCH_BLOCK,
          Kind.COMPLAINT, Reports.COMPLAINT_BLOCK,
          Kind.CAUSE, Causes.BLOCK,
          Kind.STEP, Steps.BLOCK,
          Kind.POINT, Points.BLOCK);

  private PackKeys() {}

  private static <T> Key<List<T>> section(String name, Form<List<T>> form, String doc) {
    return Key.optional(name, form, doc);
  }

  /** The scope inside a pack: its basis holds for all that says nothing else. */
  private static Scope within(YamlMap map, Scope scope) {
    return scope.on(basis(map, scope));
  }

  /** The outermost basis of a pack. */
  static Optional<Basis> basis(YamlMap map, Scope scope) {
    Scope silent = scope.reportingTo(p -> {});
    // A missing or mistyped basis is a problem of its own, and not one of each number.
    return map.value(BASIS.name())
        .flatMap(n -> BASIS.form().read(n, silent))
        .orElse(Optional.of(new Basis.CommonPractice()));
  }

  private static Optional<PackId> packId(YamlScalar s, Scope scope) {
    try {
      return Optional.of(PackId.parse(s.text()))
          .filter(id -> !id.isSeveral())
          .or(() -> badId(s, scope));
    } catch (IllegalArgumentException e) {
      return badId(s, scope);
    }
  }

  private static Optional<PackId> badId(YamlScalar s, Scope scope) {
    scope.error(
        FormatRule.BAD_ID,
        s.at(),
        "a pack is named family/subsystem: " + s.word(),
        "write it as in wren-handset/charging");
    return Optional.empty();
  }

  private static Optional<String> version(YamlScalar s, Scope scope) {
    if (s.text().matches("[0-9]{1,6}\\.[0-9]{1,6}\\.[0-9]{1,6}")) {
      return Optional.of(s.text());
    }
    scope.error(
        FormatRule.BAD_VERSION,
        s.at(),
        "a version is three numbers with points between: " + s.word(),
        "write it as in 1.0.0");
    return Optional.empty();
  }

  private static Optional<String> spelling(YamlScalar s, Scope scope) {
    return Ids.wellSpelt(s, scope) ? Optional.of(s.text()) : Optional.empty();
  }
}
