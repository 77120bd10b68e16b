package org.faultwright.cli.dialogue;

import java.util.Collection;
import java.util.List;
import java.util.Optional;
import org.faultwright.cli.text.Screen;

/** Where a dialogue takes place: it shows lines and takes one in. Confined to one thread. */
public interface Console extends AutoCloseable {

  /** What it shows, as wide as it is now. */
  Screen screen();

  /** How many lines it shows, the one to type on included. */
  int rows();

  /** Whether to speak in sentences, and to leave alone what has been said. */
  boolean isPlain();

  /** Whether a person sits there, who takes seconds for an answer. */
  default boolean leavesTime() {
    return false;
  }

  /** Shows lines, instead of those before them where that is the way of the console. */
  void show(List<String> lines);

  /**
   * Takes in what is typed.
   *
   * @param words offered for completion
   * @return one line; empty: whoever typed has gone
   */
  Optional<String> ask(Collection<String> words);

  @Override
  void close();
}
