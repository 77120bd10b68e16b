package org.faultwright.cli;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.faultwright.casefile.CaseFile;
import org.faultwright.cli.dialogue.Console;
import org.faultwright.cli.dialogue.Dialogue;
import org.faultwright.cli.dialogue.LineConsole;
import org.faultwright.cli.dialogue.StreamConsole;
import org.faultwright.cli.text.Screen;
import org.faultwright.diagnosis.Engine;
import org.faultwright.pack.Id;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PackId;
import org.faultwright.pack.reader.PackLibrary;
import org.faultwright.pack.reader.PackReading;
import org.faultwright.problem.ProblemReport;
import org.faultwright.problem.SourceTexts;
import org.faultwright.problem.Span;

/** Sets the table for a dialogue: the console, the pack, the file that the case is kept in. */
final class BenchDialogue {

  private static final String YAML = ".yaml";

  private final Surroundings surroundings;
  private final PacksOption packs;
  private final PackOption named;
  private final ShopOption shop;
  private final Engine engine;
  private final boolean plain;

  BenchDialogue(
      Surroundings surroundings,
      PacksOption packs,
      PackOption named,
      ShopOption shop,
      boolean plain) {
    this.surroundings = surroundings;
    this.packs = packs;
    this.named = named;
    this.shop = shop;
    this.engine = shop.engine(surroundings);
    this.plain = plain;
  }

  /**
   * Takes in a device.
   *
   * @param as the file to keep the case in; empty: ask for a name
   */
  int begin(String as) {
    try (Console console = console()) {
      Choosing choosing = new Choosing(console);
      Optional<Pack> pack = pack(choosing);
      if (pack.isEmpty()) {
        return ExitCode.CLEAN;
      }
      Optional<Path> file =
          as.isEmpty() ? choosing.newFile(pack.get().id()) : Optional.of(fresh(as));
      if (file.isEmpty()) {
        return ExitCode.CLEAN;
      }
      Engines.checkUsable(engine, pack.get());
      CaseFile empty = CaseFile.begun(name(file.get()), pack.get().id(), pack.get().version());
      return farewell(
          console, Dialogue.begin(console, engine, pack.get(), empty, file.get()), file.get());
    }
  }

  /** Goes on with a case. */
  int resume(String file) {
    if (file.equals(Sources.STANDARD_INPUT)) {
      throw Stopped.byUsage("--resume takes a file: every answer is kept in it");
    }
    OpenedCase opened = OpenedCase.read(file, packs, named, surroundings);
    Engines.checkUsable(engine, opened.pack());
    Path path = Path.of(file);
    try (Console console = console()) {
      return farewell(
          console,
          Dialogue.resume(console, engine, opened.pack(), opened.caseFile(), path, opened.text()),
          path);
    }
  }

  private int farewell(Console console, Dialogue.End end, Path file) {
    console.show(
        List.of(
            end == Dialogue.End.ENDED
                ? "Ended. The case is in " + file + "."
                : "Left. All that was answered is in "
                    + file
                    + "; go on with: diagnose"
                    + shop.again()
                    + " --resume "
                    + file));
    return ExitCode.CLEAN;
  }

  private Optional<Pack> pack(Choosing choosing) {
    Optional<Pack> own = named.pack();
    if (own.isPresent()) {
      return own;
    }
    PackLibrary library = packs.library(Optional.empty());
    Optional<PackId> id = named.id().or(() -> choosing.pack(library));
    return id.map(chosen -> read(library, chosen));
  }

  private static Pack read(PackLibrary library, PackId id) {
    PackReading reading =
        library
            .read(id)
            .orElseThrow(
                () ->
                    Stopped.byProblems(
                        ProblemReport.of(
                            List.of(library.unknown(id, new Span("--pack", 1, 1, 1))),
                            SourceTexts.NONE)));
    if (reading instanceof PackReading.Readable readable) {
      return readable.pack();
    }
    throw Stopped.byProblems(reading.report());
  }

  private static Path fresh(String as) {
    Path path;
    try {
      path = Path.of(as);
    } catch (InvalidPathException e) {
      throw Stopped.byUsage("this cannot be the name of a file: '" + as + "'");
    }
    if (Files.exists(path)) {
      throw Stopped.byUsage(
          "there is a file '" + as + "' already; to go on with it: diagnose --resume " + as);
    }
    return path;
  }

  /** The name of the case: that of its file, as far as it can be one. */
  private static String name(Path file) {
    String name = file.getFileName().toString();
    String base = name.endsWith(YAML) ? name.substring(0, name.length() - YAML.length()) : name;
    return Id.isWellSpelt(base) ? base : "unnamed";
  }

  private Console console() {
    Screen screen = surroundings.screen();
    boolean canDraw =
        surroundings.terminal()
            && surroundings.keyboard()
            && !List.of("", "dumb").contains(surroundings.environment().getOrDefault("TERM", ""));
    if (!plain && canDraw) {
      try {
        return LineConsole.atThisTerminal(screen);
      } catch (IOException e) {
        surroundings.tell("this terminal cannot be drawn on (" + e.getMessage() + ")");
      }
    }
    if (!plain && !(surroundings.terminal() && surroundings.keyboard())) {
      throw Stopped.byUsage(
          "a dialogue needs a terminal; name a case file to diagnose, add --plain to answer through"
              + " a pipe, or let a program use converse");
    }
    return new StreamConsole(
        new BufferedReader(new InputStreamReader(surroundings.in(), StandardCharsets.UTF_8)),
        surroundings.out(),
        screen,
        rows(),
        plain);
  }

  private int rows() {
    String lines = surroundings.environment().getOrDefault("LINES", "");
    return lines.matches("[1-9][0-9]{0,3}") ? Math.max(10, Integer.parseInt(lines)) : 24;
  }
}
