package org.faultwright.compile;

import org.faultwright.pack.Id;

/**
 * One observation of one thing: what a fact is bound to for ever.
 *
 * @param what what is observed: a step, a symptom
 * @param epoch the first epoch in which the thing had its present ancestors: observations with no
 *     touched ancestor in between share it
 * @param repeat 0 for the first observation; above 0 only for steps whose repeats are not sure
 *     copies
 */
record Slot(Id what, int epoch, int repeat) {}
