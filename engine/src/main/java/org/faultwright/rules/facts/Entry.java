package org.faultwright.rules.facts;

import java.util.Set;
import org.faultwright.casefile.FactId;
import org.faultwright.pack.CauseId;

/** A fact that has been told and that others can replace, repeat or contradict. */
public sealed interface Entry permits Said, Observed {

  /** Names the fact. */
  FactId id();

  /** What it is about. */
  Topic topic();

  /** The causes that can move what it tells of. */
  Set<CauseId> ancestors();

  /** How many attempts had been made when it was told. */
  int epoch();
}
