package org.faultwright.cli;

import java.util.Optional;
import java.util.concurrent.Callable;
import org.faultwright.cli.converse.Conversation;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;

/** Holds a conversation with another program: JSON requests and replies, one a line. */
@Command(
    name = "converse",
    mixinStandardHelpOptions = true,
    description = {
      "Answer requests of another program: one JSON object a line on standard input, one reply a"
          + " line on standard output. examples/cli/docs/converse.md describes them."
    },
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:The conversation has ended, however its requests went; their replies say.",
      "2:The command was not understood, or a folder is not there.",
      "3:A fault of Faultwright itself."
    })
final class Converse implements Callable<Integer> {

  private final Surroundings surroundings;

  @Mixin private PacksOption packs = new PacksOption();

  @Mixin private PackOption named = new PackOption();

  @Mixin private ShopOption shop = new ShopOption();

  Converse(Surroundings surroundings) {
    this.surroundings = surroundings;
  }

  @Override
  public Integer call() {
    try (Conversation conversation =
        new Conversation(
            shop.engine(surroundings), packs.library(Optional.empty()), named.pack())) {
      conversation.hold(surroundings.in(), surroundings.out(), surroundings.err());
    }
    return ExitCode.CLEAN;
  }
}
