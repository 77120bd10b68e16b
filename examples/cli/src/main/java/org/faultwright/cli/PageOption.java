package org.faultwright.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.faultwright.cli.paper.PlanPaper;
import org.faultwright.cli.text.WholeFile;
import org.faultwright.diagnosis.Answer;
import org.faultwright.pack.Pack;
import org.faultwright.planning.Plan;
import org.faultwright.planning.PlanLimits;
import picocli.CommandLine.Option;

/** The option that brings a plan on paper. */
final class PageOption {

  /** When a page says that it was made, in seconds since 1970 (reproducible-builds.org). */
  private static final String EPOCH = "SOURCE_DATE_EPOCH";

  @Option(
      names = "--page",
      paramLabel = "FILE",
      description =
          "Write the plan as a page to print, for the bench and for the customer: HTML with a"
              + " drawing (.html), or Markdown (.md). May be repeated. Nothing but --json is"
              + " printed then.")
  private List<String> files = new ArrayList<>();

  @Option(
      names = "--replace",
      description = "Write pages over files that are there already. Else they are left alone.")
  private boolean replace;

  @Option(
      names = "--page-steps",
      paramLabel = "NUMBER",
      defaultValue = "6",
      description =
          "Show so many of the likeliest steps on a page; the rest is named where it follows."
              + " Default: ${DEFAULT-VALUE}.")
  private int steps;

  /** Whether a page is asked for. */
  boolean isWanted() {
    return !files.isEmpty();
  }

  /**
   * Looks whether the pages can be written, before time is spent on the plan.
   *
   * @throws Stopped when one cannot
   */
  void check() {
    if (steps < 1) {
      throw Stopped.byUsage("--page-steps must be at least 1: " + steps);
    }
    for (String file : files) {
      isHtml(file);
      Path path = path(file);
      Path folder = path.toAbsolutePath().getParent();
      if (Files.isDirectory(path) || folder == null) {
        throw Stopped.byUsage("'" + file + "' is a folder; --page takes a file");
      } else if (!Files.isDirectory(folder)) {
        throw Stopped.byUsage("there is no folder for '" + file + "'; make it first");
      } else if (Files.exists(path) && !replace) {
        throw Stopped.byUsage(
            "there is a file '" + file + "' already; choose another name, or add --replace");
      }
    }
  }

  /**
   * Writes the pages that are asked for.
   *
   * @throws Stopped when one cannot be written
   */
  void write(
      Surroundings surroundings,
      Pack pack,
      Answer answer,
      Plan plan,
      PlanLimits limits,
      Beside beside,
      Optional<String> shopFile) {
    if (files.isEmpty()) {
      return;
    }
    PlanPaper paper =
        new PlanPaper(
            pack,
            answer,
            plan,
            limits,
            steps,
            beside.repairOrNot(),
            beside.compared(),
            shopFile.map(named -> Path.of(named).getFileName().toString()),
            now(surroundings),
            new Version().getVersion()[0]);
    // a file that has come up while the plan was made is not written over either
    check();
    for (String file : files) {
      try {
        WholeFile.write(path(file), isHtml(file) ? paper.html() : paper.markdown());
      } catch (IOException e) {
        throw Stopped.byUsage("cannot write '" + file + "': " + e.getMessage());
      }
      surroundings.tell("wrote " + file);
    }
  }

  private static boolean isHtml(String file) {
    String name = file.toLowerCase(Locale.ROOT);
    if (name.endsWith(".html") || name.endsWith(".htm")) {
      return true;
    } else if (name.endsWith(".md") || name.endsWith(".markdown")) {
      return false;
    }
    throw Stopped.byUsage("--page takes a file that ends in .html or .md: '" + file + "'");
  }

  private static Path path(String file) {
    try {
      return Path.of(file);
    } catch (InvalidPathException e) {
      throw Stopped.byUsage("'" + file + "' is no name for a file");
    }
  }

  private static ZonedDateTime now(Surroundings surroundings) {
    String epoch = surroundings.environment().getOrDefault(EPOCH, "");
    return epoch.matches("[0-9]{1,11}")
        ? Instant.ofEpochSecond(Long.parseLong(epoch)).atZone(ZoneId.of("UTC"))
        : ZonedDateTime.now(ZoneId.systemDefault());
  }
}
