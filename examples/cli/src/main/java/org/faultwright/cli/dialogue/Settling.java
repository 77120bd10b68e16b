package org.faultwright.cli.dialogue;

import java.util.List;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.Intake;
import org.faultwright.cli.text.Asked;

/** One thing that is settled when a device is taken in, and may be settled anew later. */
interface Settling {

  /** The question, with what is known of it so far. */
  Asked asked(CaseFile known, String notice);

  /** What an answer settles. */
  Result hear(CaseFile known, String typed);

  /** What came of an answer. */
  sealed interface Result {

    /** Facts that are told, and what is settled besides. */
    record Settled(List<Fact> facts, Intake intake) implements Result {

      /** Copies the list. */
      public Settled {
        facts = List.copyOf(facts);
      }
    }

    /** It was not understood; the words say why. */
    record Unclear(String words) implements Result {}
  }
}
