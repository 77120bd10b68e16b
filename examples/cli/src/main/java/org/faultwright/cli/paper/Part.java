package org.faultwright.cli.paper;

import java.util.List;
import org.faultwright.cli.text.PlanWalk.Act;

/**
 * One part of a plan that is too large for one sheet.
 *
 * @param number counted from 1
 * @param root where it begins
 * @param continued whether it shows further results of an act that another part begins with
 * @param acts the acts that are shown in full, the root among them, in the order of their numbers
 * @param elsewhere the numbers of the parts in which it goes on
 * @param sketch the drawing
 */
record Part(
    int number,
    Act root,
    boolean continued,
    List<Act> acts,
    List<Integer> elsewhere,
    Sketch sketch) {

  /** Copies the lists. */
  Part {
    acts = List.copyOf(acts);
    elsewhere = List.copyOf(elsewhere);
  }
}
