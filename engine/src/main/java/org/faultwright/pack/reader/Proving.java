package org.faultwright.pack.reader;

import java.util.Optional;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.EventId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.format.Block;
import org.faultwright.pack.format.Fields;
import org.faultwright.pack.format.Form;
import org.faultwright.pack.format.Forms;
import org.faultwright.pack.format.Ids;
import org.faultwright.pack.format.Key;
import org.faultwright.pack.format.Kind;
import org.faultwright.pack.format.Names;

/** A function test: it looks at the event of a complaint. */
final class Proving {

  /**
   * What is proved, and by what observation.
   *
   * @param shows outcomes {@code failed}, positive, and {@code passed}
   */
  record Proof(ComplaintId complaint, Observation shows) {}

  private static final Key<ComplaintId> COMPLAINT =
      Key.required(
          "complaint", Ids.ref(Kind.COMPLAINT, ComplaintId::new), "whose function it proves");

  static final Form<Proof> FORM =
      Forms.built(
          Block.of("proves", COMPLAINT, Observations.CATCHES, Observations.CRIES_WOLF).withBasis(),
          Proving::proof);

  private Proving() {}

  private static Optional<Proof> proof(Fields f) {
    if (!f.complete()) {
      return Optional.empty();
    }
    ComplaintId complaint = f.need(COMPLAINT);
    // A complaint without a sound event has been reported where it is defined.
    Names names = f.scope().names();
    return names
        .definition(Kind.COMPLAINT, complaint.value())
        .flatMap(Names.Defined::block)
        .flatMap(c -> c.text("event"))
        .filter(event -> names.has(Kind.EVENT, event))
        .map(
            event ->
                new Proof(
                    complaint,
                    new Observation.OfNode(
                        new EventId(event),
                        f.need(Observations.CATCHES),
                        f.need(Observations.CRIES_WOLF),
                        new OutcomeId(Results.FAILED),
                        new OutcomeId(Results.PASSED))));
  }
}
