package org.faultwright.cli.dialogue;

import java.util.List;
import java.util.Optional;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.Point;
import org.faultwright.pack.StepId;

/**
 * The one thing that is asked now.
 *
 * @param words the question
 * @param choices what can be answered; empty where a value is asked for
 * @param point the point whose reading is asked for
 * @param step the step that it belongs to
 * @param turns the bench positions that an answer says have been brought about
 */
record Question(
    String words,
    List<Choice> choices,
    Optional<Point> point,
    Optional<StepId> step,
    List<BenchState> turns) {

  /** One possible answer. */
  record Choice(String words, Act act) {}

  /** Copies the lists. */
  Question {
    choices = List.copyOf(choices);
    turns = List.copyOf(turns);
  }
}
