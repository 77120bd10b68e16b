package org.faultwright.cli.dialogue;

import java.util.List;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.FactId;

/** What an answer brings about. */
sealed interface Act {

  /** Facts are told, in this order. */
  record Tell(List<Fact> facts) implements Act {

    /** Copies the list. */
    public Tell {
      facts = List.copyOf(facts);
    }
  }

  /** A fact is taken out. */
  record TakeOut(FactId fact) implements Act {}

  /** The work ends here. */
  record End() implements Act {}

  /** Something else is looked for. */
  record SomethingElse() implements Act {}
}
