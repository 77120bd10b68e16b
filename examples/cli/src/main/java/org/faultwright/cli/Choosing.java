package org.faultwright.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.faultwright.cli.dialogue.Console;
import org.faultwright.cli.text.SpokenPage;
import org.faultwright.pack.Id;
import org.faultwright.pack.PackId;
import org.faultwright.pack.reader.PackLibrary;

/** What is chosen before a case begins: the pack, and the name of the case. */
final class Choosing {

  private final Console console;

  Choosing(Console console) {
    this.console = console;
  }

  /** The only pack there is, or the one that is picked; empty: whoever sat there has left. */
  Optional<PackId> pack(PackLibrary library) {
    List<PackId> ids = library.ids().stream().sorted().toList();
    if (ids.isEmpty()) {
      throw Stopped.byUsage("there are no packs; name a folder with --packs");
    } else if (ids.size() == 1) {
      return Optional.of(ids.get(0));
    }
    String notice = "";
    while (true) {
      List<String> lines = new ArrayList<>();
      lines.add("PACKS");
      for (int i = 0; i < ids.size(); i++) {
        lines.add((i + 1) + "  " + ids.get(i));
      }
      lines.add("");
      if (!notice.isEmpty()) {
        lines.add(notice);
      }
      lines.add("Which device and which part of it? Its number, or several of one device: 1 2.");
      lines.add("quit leaves");
      Optional<String> line = ask(lines);
      if (line.isEmpty()) {
        return Optional.empty();
      }
      String typed = line.get();
      if (typed.matches("[0-9]{1,3}([ ,+]+[0-9]{1,3})*")) {
        try {
          return Optional.of(PackId.ofAll(numbered(ids, typed)));
        } catch (IllegalArgumentException e) {
          notice = "Not '" + typed + "': " + e.getMessage() + ".";
          continue;
        }
      }
      List<PackId> fitting = ids.stream().filter(id -> id.toString().contains(typed)).toList();
      if (fitting.size() == 1 && !typed.isEmpty()) {
        return Optional.of(fitting.get(0));
      }
      notice = "'" + typed + "' is none of them; type 1 to " + ids.size() + ".";
    }
  }

  private static List<PackId> numbered(List<PackId> ids, String typed) {
    List<PackId> chosen = new ArrayList<>();
    for (String word : typed.split("[ ,+]+")) {
      int number = Integer.parseInt(word);
      if (number < 1 || number > ids.size()) {
        throw new IllegalArgumentException("type 1 to " + ids.size());
      }
      chosen.add(ids.get(number - 1));
    }
    return PackId.ofAll(chosen).each();
  }

  /** A file that is not there yet; empty: whoever sat there has left. */
  Optional<Path> newFile(PackId pack) {
    int number = 1;
    while (Files.exists(Path.of(pack.family() + "-" + number + ".yaml"))) {
      number++;
    }
    String usual = pack.family() + "-" + number;
    String notice = "";
    while (true) {
      List<String> lines = new ArrayList<>(List.of("NEW JOB for " + pack, ""));
      if (!notice.isEmpty()) {
        lines.add(notice);
      }
      lines.add("What is the job called? Enter: " + usual + "; quit leaves.");
      Optional<String> line = ask(lines);
      if (line.isEmpty()) {
        return Optional.empty();
      }
      String name = line.get().isEmpty() ? usual : line.get().toLowerCase(java.util.Locale.ROOT);
      Path file = Path.of(name + ".yaml");
      if (!Id.isWellSpelt(name)) {
        notice = "'" + name + "' cannot be a name: letters, digits and hyphens, a letter first.";
      } else if (Files.exists(file)) {
        notice = "There is a " + file + " already; diagnose --resume " + file + " goes on with it.";
      } else {
        return Optional.of(file);
      }
    }
  }

  private Optional<String> ask(List<String> lines) {
    console.show(lines.stream().map(l -> SpokenPage.fit(console.screen(), l)).toList());
    return console.ask(List.of()).map(String::strip).filter(typed -> !typed.equals("quit"));
  }
}
