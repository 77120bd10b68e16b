package org.faultwright.pack.check;

import java.util.function.Consumer;
import org.faultwright.pack.Pack;
import org.faultwright.problem.Problem;

/**
 * One check of what a pack says, made after it has been read without an error: every id that is
 * referred to exists, and numbers are in their domains.
 *
 * <p>Stateless and thread-safe. It must end quickly on any pack, for a pack is untrusted input.
 */
public interface PackCheck {

  /** Id of its problems, and the name of its page in {@code engine/docs/checks/}. */
  String id();

  /**
   * Looks for problems.
   *
   * @param pack the pack, with its fragments merged in; neither events nor what causes follow form
   *     a cycle (the reader reports those as {@code cycle} and stops)
   * @param at where its statements stand
   * @param found takes each problem; all of them have the id of this check
   */
  void check(Pack pack, Positions at, Consumer<Problem> found);
}
