package org.faultwright.cli;

import java.util.Optional;
import java.util.concurrent.Callable;
import org.faultwright.cli.text.Ink;
import org.faultwright.cli.text.Page;
import org.faultwright.pack.Pack;
import org.faultwright.pack.reader.PackLibrary;
import org.faultwright.pack.reader.PackReading;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;

/** Lists the packs that there are. */
@Command(
    name = "packs",
    mixinStandardHelpOptions = true,
    description = "List the packs that can be used.",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:All packs that there are can be used.",
      "1:A pack has errors; lint shows them.",
      "2:The command was not understood, or a folder is not there.",
      "3:A fault of Faultwright itself."
    })
final class Packs implements Callable<Integer> {

  private final Surroundings surroundings;

  @Mixin private PacksOption packs = new PacksOption();

  Packs(Surroundings surroundings) {
    this.surroundings = surroundings;
  }

  @Override
  public Integer call() {
    PackLibrary library = packs.library(Optional.empty());
    Page page = new Page(surroundings.screen());
    int exitCode = ExitCode.CLEAN;
    for (PackLibrary.Listed listed : library.list()) {
      PackReading reading = library.read(listed.id()).orElseThrow();
      if (reading instanceof PackReading.Readable readable) {
        write(page, readable.pack(), cases(listed));
      } else {
        exitCode = ExitCode.FINDINGS;
        page.gap().hanging("", Ink.PLAIN, listed.id().toString(), Ink.STRONG);
        page.item("CANNOT BE USED: see lint " + listed.place());
      }
    }
    page.printOn(surroundings.out());
    return exitCode;
  }

  private static void write(Page page, Pack pack, int cases) {
    page.gap().hanging("", Ink.PLAIN, pack.id() + " " + pack.version(), Ink.STRONG);
    page.item(pack.title());
    page.item(
        counted(pack.causes().size(), "cause")
            + ", "
            + counted(pack.steps().size(), "step")
            + ", "
            + counted(cases, "case")
            + (pack.invented() ? "; an invented device family" : ""));
  }

  private int cases(PackLibrary.Listed listed) {
    return Bundle.of(listed.id(), packs.folders()).map(b -> b.cases().size()).orElse(0);
  }

  private static String counted(int number, String word) {
    return number + " " + word + (number == 1 ? "" : "s");
  }
}
