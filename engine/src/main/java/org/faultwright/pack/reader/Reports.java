package org.faultwright.pack.reader;

import java.util.List;
import java.util.Optional;
import org.faultwright.pack.Chance;
import org.faultwright.pack.Complaint;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.EventId;
import org.faultwright.pack.History;
import org.faultwright.pack.HistoryId;
import org.faultwright.pack.ModeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.Symptom;
import org.faultwright.pack.SymptomId;
import org.faultwright.pack.format.Block;
import org.faultwright.pack.format.Chances;
import org.faultwright.pack.format.Fields;
import org.faultwright.pack.format.Form;
import org.faultwright.pack.format.Forms;
import org.faultwright.pack.format.Ids;
import org.faultwright.pack.format.Key;
import org.faultwright.pack.format.Kind;

/** The sections of what is reported and seen: complaints, history, symptoms. */
final class Reports {

  private static final Key<String> TITLE =
      Key.optional("title", Forms.TEXT, "in the customer's words");

  // Complaints.
  private static final Key<EventId> EVENT =
      Key.required("event", Ids.ref(Kind.EVENT, EventId::new), "its event: function lost");
  private static final Key<Chance> BY_MISTAKE =
      Key.optional(
          "reported-by-mistake", Chances.chance(0), "P(reported) where the function is there");
  private static final Key<Chance> RATE =
      Key.optional("rate", Chances.chance(), "P(function lost) per device taken in");
  private static final Key<Boolean> COUNTS_CLOSED =
      Key.optional(
          "counts-closed", Forms.YES_NO, "whether it must be proved once more after closing");

  static final Block COMPLAINT_BLOCK =
      Block.of("complaint", TITLE, EVENT, BY_MISTAKE, RATE, COUNTS_CLOSED).withBasis();

  static final Form<List<Complaint>> COMPLAINTS =
      Section.of(Kind.COMPLAINT, COMPLAINT_BLOCK, Reports::complaint);

  // History.
  private static final Key<Chance> LIKELY =
      Key.required("likely", Chances.chance(), "P(it happened) per device taken in");
  private static final Key<Chance> CATCHES =
      Key.required("catches", Chances.chance(), "P(yes) where it happened");
  private static final Key<Chance> CRIES_WOLF =
      Key.required("cries-wolf", Chances.chance(), "P(yes) where it did not");
  private static final Form<History.Witness> WITNESS =
      Forms.built(
          Block.of("witness", CATCHES, CRIES_WOLF).withBasis(),
          f ->
              f.complete()
                  ? Optional.of(new History.Witness(f.need(CATCHES), f.need(CRIES_WOLF)))
                  : Optional.empty());
  private static final Key<History.Witness> SAID =
      Key.optional("said", WITNESS, "how far the customer's word goes");
  private static final Key<History.Witness> SEEN =
      Key.optional("seen", WITNESS, "how far our look at its traces goes");

  static final Form<List<History>> HISTORY =
      Section.of(
          Kind.HISTORY,
          Block.of("history", TITLE, LIKELY, SAID, SEEN).withBasis(),
          (id, f) ->
              Optional.of(
                  new History(
                      new HistoryId(id),
                      f.get(TITLE).orElse(Section.words(id)),
                      f.need(LIKELY),
                      f.get(SAID),
                      f.get(SEEN))));

  // Symptoms.
  private static final Key<Observation> SHOWS =
      Key.optional("shows", Observations.OF_SYMPTOM, "what its presence tells");
  private static final Key<Chance> OVERLOOKED =
      Key.optional("overlooked", Chances.chance(), "P(a first look does not see it)");

  private static final Key<ModeId> PROVOKES =
      Key.optional(
          "provokes",
          Ids.spelt(ModeId::new),
          "what looking for it does to faults that come and go: bent, warm");

  static final Form<List<Symptom>> SYMPTOMS =
      Section.of(
          Kind.SYMPTOM,
          Block.of("symptom", TITLE, SHOWS, OVERLOOKED, PROVOKES).withBasis(),
          (id, f) ->
              f.spoilt(SHOWS)
                  ? Optional.empty()
                  : Optional.of(
                      new Symptom(
                          new SymptomId(id),
                          f.get(TITLE).orElse(Section.words(id)),
                          f.get(SHOWS),
                          f.get(OVERLOOKED).orElse(Chance.byDefinition(Symptom.DEFAULT_OVERLOOKED)),
                          f.get(PROVOKES).orElse(ModeId.AT_REST))));

  private Reports() {}

  private static Optional<Complaint> complaint(String id, Fields f) {
    return Optional.of(
        new Complaint(
            new ComplaintId(id),
            f.get(TITLE).orElse(Section.words(id)),
            f.need(EVENT),
            f.get(BY_MISTAKE).orElse(Chance.byDefinition(0)),
            f.get(RATE).orElse(Chance.byDefinition(Complaint.DEFAULT_RATE)),
            f.get(COUNTS_CLOSED).orElse(false)));
  }
}
