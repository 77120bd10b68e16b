package org.faultwright.casefile;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.pack.BoardId;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.Goal;
import org.faultwright.pack.HoldId;
import org.faultwright.pack.PackId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.ToolId;
import org.faultwright.pack.format.Block;
import org.faultwright.pack.format.Chances;
import org.faultwright.pack.format.Fields;
import org.faultwright.pack.format.Form;
import org.faultwright.pack.format.FormatRule;
import org.faultwright.pack.format.Forms;
import org.faultwright.pack.format.Ids;
import org.faultwright.pack.format.Key;
import org.faultwright.pack.format.Kind;
import org.faultwright.pack.format.Numbers;
import org.faultwright.pack.format.Scope;
import org.faultwright.pack.format.Shape;
import org.faultwright.pack.format.Words;
import org.faultwright.pack.yaml.YamlNode;
import org.faultwright.pack.yaml.YamlNode.YamlScalar;
import org.faultwright.problem.Nearest;

/** The keys of a case, but for those of its facts. */
final class CaseKeys {

  /** The pack that a case names. */
  record PackName(PackId id, Optional<String> version) {}

  private static final String ANDED = "(" + Ids.SPELLING + "\\+)*";
  private static final String VERSION = "[0-9]{1,6}\\.[0-9]{1,6}\\.[0-9]{1,6}";
  private static final String VERSIONS = VERSION + "(\\+" + VERSION + ")*";

  static final Key<String> CASE = Key.required("case", Ids.spelt(s -> s), "the case's own name");
  static final Key<String> FORMAT =
      Key.required("format", Forms.FORMAT, "the format that it is written in: 1");
  static final Key<String> TITLE = Key.optional("title", Forms.TEXT, "what it is about");
  static final Key<PackName> PACK =
      Key.required(
          "pack",
          Forms.scalar(
              "family/subsystem",
              new Shape.Pattern(
                  Ids.SPELLING + "/" + ANDED + Ids.SPELLING + "(@" + VERSIONS + ")?", false),
              CaseKeys::packName),
          "the pack, as in wren-handset/charging, wren-handset/charging@1.0.0, or several as one:"
              + " wren-handset/charging+no-power");
  static final Key<BoardId> BOARD =
      Key.optional("board", Ids.ref(Kind.BOARD, BoardId::new), "the board variant, where known");
  static final Key<Goal> GOAL =
      Key.optional("goal", Words.GOAL, "what the customer wants: working, data-only or estimate");
  static final Key<Set<ConsentId>> CONSENT =
      Key.optional("consent", consents(), "what the customer agreed to from the start");
  static final Key<Set<ConsentId>> REFUSED =
      Key.optional("refused", consents(), "what the customer refused");
  static final Key<Double> CEILING =
      Key.optional("ceiling", Numbers.MONEY, "the most that the customer will pay");
  static final Key<Double> DEVICE_VALUE =
      Key.optional("device-value", Numbers.MONEY, "what a working device is worth");
  static final Key<Double> DATA_VALUE =
      Key.optional(
          "data-value",
          Numbers.MONEY,
          "what the data are worth to the customer where they are nowhere else");
  static final Key<Boolean> IRREPLACEABLE =
      Key.optional("irreplaceable-data", Forms.YES_NO, "whether there is data not to be lost");
  static final Key<Set<ToolId>> LACKS =
      Key.optional(
          "lacks", Forms.set(Ids.ref(Kind.TOOL, ToolId::new)), "tools that the shop does not have");
  static final Key<Step.Skill> SKILL =
      Key.optional("skill", Words.SKILL, "the highest skill at this bench");

  // What is expected to come out.
  static final Key<CauseId> LEADS =
      Key.optional("leads", Ids.CAUSE, "the cause that must rank first");
  static final Key<Map<CauseId, Double>> AT_LEAST =
      Key.optional("at-least", bounds(), "causes with the least probability they must have");
  static final Key<Map<CauseId, Double>> AT_MOST =
      Key.optional("at-most", bounds(), "causes with the most probability they may have");
  static final Key<String> ADVICE =
      Key.optional(
          "advice",
          Forms.scalar(
              "a kind of advice, and a step where it names one",
              new Shape.Text(),
              CaseKeys::advice),
          "the advice that must be given: its kind, and the step where it names one");
  static final Key<Boolean> IMPOSSIBLE =
      Key.optional("impossible", Forms.YES_NO, "whether the facts must be found impossible");
  static final Key<Set<StepId>> BLOCKED =
      Key.optional(
          "blocked", Forms.set(Ids.ref(Kind.STEP, StepId::new)), "steps that must not be open");
  static final Key<Set<HoldId>> HOLDS =
      Key.optional(
          "holds", Forms.set(Ids.ref(Kind.HOLD, HoldId::new)), "holds that must be in force");
  static final Key<YamlScalar> DECISIVE =
      Key.optional(
          "decisive",
          Forms.scalar(
              "a label", new Shape.Pattern(Ids.SPELLING, false), (s, scope) -> Optional.of(s)),
          "label of the fact without which the expectation must fail");

  private static final Block EXPECTATION =
      Block.of("expect", LEADS, AT_LEAST, AT_MOST, ADVICE, IMPOSSIBLE, BLOCKED, HOLDS, DECISIVE);

  static final Key<Fields> EXPECT =
      Key.optional("expect", EXPECTATION, "what is expected to come out");

  private CaseKeys() {}

  private static Form<Set<ConsentId>> consents() {
    return Forms.set(Ids.ref(Kind.CONSENT, ConsentId::new));
  }

  private static Form<Map<CauseId, Double>> bounds() {
    return Ids.map(Kind.CAUSE, CauseId::new, Chances.PLAIN);
  }

  /** The pack that a scalar names. */
  static Optional<PackName> packName(YamlScalar s, Scope scope) {
    int at = s.text().indexOf('@');
    String id = at < 0 ? s.text() : s.text().substring(0, at);
    Optional<String> version = at < 0 ? Optional.empty() : Optional.of(s.text().substring(at + 1));
    try {
      PackId pack = PackId.parse(id);
      int packs = pack.each().size();
      if (version.isPresent()
          && !(version.get().matches(VERSIONS) && version.get().split("\\+").length == packs)) {
        scope.error(
            FormatRule.BAD_VERSION,
            s.at(),
            packs == 1
                ? "a version is three numbers with points between: '" + version.get() + "'"
                : "each of the " + packs + " packs has a version: '" + version.get() + "'",
            "write it as in " + pack + "@1.0.0" + "+1.0.0".repeat(packs - 1));
        return Optional.empty();
      }
      return Optional.of(new PackName(pack, version));
    } catch (IllegalArgumentException e) {
      scope.error(
          FormatRule.BAD_ID,
          s.at(),
          "a pack is named family/subsystem: " + s.word(),
          "write it as in wren-handset/charging");
      return Optional.empty();
    }
  }

  private static Optional<String> advice(YamlScalar s, Scope scope) {
    String[] words = s.text().strip().split(" +");
    if (!AdviceWords.ALL.contains(words[0]) || words.length > 2) {
      scope.error(
          FormatRule.UNKNOWN_WORD,
          s.at(),
          "'advice' of " + scope.owner() + " cannot be " + s.word(),
          Nearest.of(words[0], AdviceWords.ALL)
              .map(w -> "did you mean '" + w + "'?")
              .orElse(
                  "it is a kind, and a step where it names one; kinds are: "
                      + String.join(", ", AdviceWords.ALL)));
      return Optional.empty();
    }
    if (words.length == 1) {
      return Optional.of(words[0]);
    }
    YamlScalar step = new YamlNode.YamlScalar(s.at(), words[1], true);
    return Ids.resolve(List.of(Kind.STEP), step, scope).map(id -> words[0] + " " + id);
  }
}
