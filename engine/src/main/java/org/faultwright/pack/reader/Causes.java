package org.faultwright.pack.reader;

import java.math.BigDecimal;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.pack.Basis;
import org.faultwright.pack.BoardId;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Chance;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.GroupId;
import org.faultwright.pack.HistoryId;
import org.faultwright.pack.ModeId;
import org.faultwright.pack.OneOf;
import org.faultwright.pack.format.BasisForm;
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

/** The sections of causes and of groups of causes. */
final class Causes {

  private static final Key<String> TITLE = Key.optional("title", Forms.TEXT, "what is wrong");
  private static final Key<Cause.Kind> KIND =
      Key.optional(
          "kind",
          Forms.word(
              Map.entry("fault", Cause.Kind.FAULT),
              Map.entry("unlisted", Cause.Kind.UNLISTED),
              Map.entry("no-fault", Cause.Kind.NO_FAULT),
              Map.entry("outside", Cause.Kind.OUTSIDE)),
          "fault, unlisted, no-fault or outside");
  private static final Key<Chance> PRIOR =
      Key.optional("prior", Chances.chance(), "probability per device taken in");
  private static final Key<Chance> SHARE =
      Key.optional("share", Chances.chance(), "share among the causes of the complaint 'of'");
  private static final Key<ComplaintId> OF =
      Key.optional("of", Ids.ref(Kind.COMPLAINT, ComplaintId::new), "the complaint of the share");
  private static final Key<Map<HistoryId, BigDecimal>> AFTER =
      Key.optional(
          "after",
          Ids.map(Kind.HISTORY, HistoryId::new, Numbers.FACTOR_FORM),
          "history that multiplies the odds of this cause, as in {liquid: x8}");
  private static final Key<Map<CauseId, Chance>> FOLLOWS =
      Key.optional(
          "follows",
          Ids.map(Kind.CAUSE, CauseId::new, Chances.chance()),
          "causes that bring this one about, each with the probability that it does");
  private static final Key<Map<ModeId, Chance>> SHOWS =
      Key.optional(
          "shows",
          Forms.some(
              Ids.map(
                  (s, scope) ->
                      Ids.wellSpelt(s, scope)
                          ? Optional.of(new ModeId(s.text()))
                          : Optional.empty(),
                  Chances.chance())),
          "where it comes and goes: the probability that it acts, by what provokes it");
  private static final Key<Set<BoardId>> BOARDS =
      Key.optional(
          "boards",
          Forms.some(Forms.set(Ids.ref(Kind.BOARD, BoardId::new))),
          "the boards that can have it; all where nothing is said");
  private static final Key<Boolean> SEND_ON =
      Key.optional("send-on", Forms.YES_NO, "whether it calls for other hands");

  static final Block BLOCK =
      Block.of("cause", TITLE, KIND, PRIOR, SHARE, OF, AFTER, FOLLOWS, SHOWS, BOARDS, SEND_ON)
          .withBasis()
          .atMostOneOf(PRIOR, SHARE);

  /** The section of causes, not yet in their groups. */
  static final Form<List<Cause>> FORM = Section.of(Kind.CAUSE, BLOCK, Causes::cause);

  private static final Key<Set<CauseId>> MEMBERS =
      Key.required(
          "members", Forms.some(Forms.set(Ids.CAUSE)), "causes of which at most one is present");
  private static final Key<Boolean> CERTAIN =
      Key.optional("certain", Forms.YES_NO, "whether exactly one is present in every device");

  /** The section of groups. */
  static final Form<List<OneOf>> GROUPS =
      Section.of(
          Kind.GROUP,
          Block.of("one-of", MEMBERS, CERTAIN),
          (id, f) ->
              Optional.of(
                  new OneOf(new GroupId(id), f.get(CERTAIN).orElse(false), f.need(MEMBERS))));

  private Causes() {}

  private static Optional<Cause> cause(String id, Fields f) {
    Optional<Cause.Likelihood> likelihood = likelihood(f);
    if (likelihood.isEmpty()
        || f.spoilt(FOLLOWS)
        || f.spoilt(SHOWS)
        || f.spoilt(AFTER)
        || f.spoilt(BOARDS)) {
      return Optional.empty();
    }
    Map<HistoryId, Double> after = new LinkedHashMap<>();
    if (f.wrote(AFTER)) {
      BasisForm.needed(f.scope().at(AFTER.name()), f.keyAt(AFTER));
      f.get(AFTER).orElse(Map.of()).forEach((h, x) -> after.put(h, x.doubleValue()));
    }
    Map<ModeId, Chance> shows = f.get(SHOWS).orElse(Map.of());
    if (!shows.isEmpty() && !shows.containsKey(ModeId.AT_REST)) {
      f.scope()
          .error(
              FormatRule.MISSING_BESIDE,
              f.keyAt(SHOWS),
              "'shows' of " + f.scope().owner() + " must say what happens 'at-rest'",
              "add the probability that it acts when nothing provokes it, as in {at-rest: 30 %}");
      return Optional.empty();
    }
    return Optional.of(
        new Cause(
            new CauseId(id),
            f.get(TITLE).orElse(Section.words(id)),
            f.get(KIND).orElse(kindOf(id)),
            likelihood.get(),
            Optional.empty(),
            after,
            f.get(FOLLOWS).orElse(Map.of()),
            shows,
            f.get(BOARDS).orElse(Set.of()),
            f.get(SEND_ON).orElse(false)));
  }

  /** The kind that an id implies. */
  static Cause.Kind kindOf(String id) {
    return switch (id) {
      case "unlisted" -> Cause.Kind.UNLISTED;
      case "no-fault-found" -> Cause.Kind.NO_FAULT;
      case "outside-the-device" -> Cause.Kind.OUTSIDE;
      default -> Cause.Kind.FAULT;
    };
  }

  private static Optional<Cause.Likelihood> likelihood(Fields f) {
    if (f.spoilt(PRIOR) || f.spoilt(SHARE) || f.spoilt(OF) || f.spoilt(BasisForm.COUNTED)) {
      return Optional.empty();
    }
    if (f.get(PRIOR).isPresent()) {
      return f.wrote(OF) ? notNeeded(f) : Optional.of(new Cause.Likelihood.Prior(f.need(PRIOR)));
    }
    if (f.get(SHARE).isPresent()) {
      return share(f);
    }
    if (f.get(BasisForm.COUNTED).isPresent()) {
      return counted((Basis.Counted) f.need(BasisForm.COUNTED), f);
    }
    return f.wrote(OF) ? notNeeded(f) : Optional.of(new Cause.Likelihood.OnlyCaused());
  }

  private static Optional<Cause.Likelihood> share(Fields f) {
    if (f.get(OF).isEmpty()) {
      f.scope()
          .error(
              FormatRule.MISSING_BESIDE,
              f.at(SHARE),
              "'of' is missing beside 'share' of " + f.scope().owner(),
              "add 'of:', the complaint that it is a share of");
      return Optional.empty();
    }
    return Optional.of(new Cause.Likelihood.Share(f.need(OF), f.need(SHARE)));
  }

  private static Optional<Cause.Likelihood> notNeeded(Fields f) {
    f.scope()
        .error(
            FormatRule.KEY_NOT_NEEDED,
            f.keyAt(OF),
            "'of' goes with 'share', and " + f.scope().owner() + " has none",
            "add 'share:', or remove 'of'");
    return Optional.empty();
  }

  /** A likelihood by counts alone; a share is settled when all causes of the complaint are read. */
  private static Optional<Cause.Likelihood> counted(Basis.Counted c, Fields f) {
    if (f.wrote(OF) && !f.map().text(OF.name()).orElse("").equals(c.among())) {
      f.scope()
          .error(
              FormatRule.BAD_COUNT,
              f.at(OF),
              f.scope().owner() + " is counted among '" + c.among() + "', and not among this",
              "make the two agree, or remove 'of'");
      return Optional.empty();
    }
    Chance chance = Chance.of((c.seen() + 0.5) / (c.of() + 1), c);
    return Optional.of(
        c.among().equals("devices")
            ? new Cause.Likelihood.Prior(chance)
            : new Cause.Likelihood.Share(new ComplaintId(c.among()), chance));
  }
}
