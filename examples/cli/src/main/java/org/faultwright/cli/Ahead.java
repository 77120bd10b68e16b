package org.faultwright.cli;

import org.faultwright.rules.RuleBase;

/** Uses a second processor at the start: the rules load while the files are read. */
final class Ahead {

  private Ahead() {}

  /**
   * Begins to load the rules. Where that fails, it fails again, and is reported, when they are
   * needed.
   */
  static void loadRules() {
    Thread loading = new Thread(Ahead::load, "loading rules");
    loading.setDaemon(true);
    loading.start();
  }

  private static void load() {
    try {
      RuleBase.shared();
    } catch (LinkageError | IllegalStateException e) {
      // the diagnosis meets and reports the same failure
      return;
    }
  }
}
