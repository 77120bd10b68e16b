package org.faultwright.cli.paper;

import java.util.List;
import java.util.stream.Collectors;
import org.faultwright.cli.paper.Block.Entry;
import org.faultwright.cli.text.Figures;
import org.faultwright.cli.text.Naming;
import org.faultwright.cli.text.PlanWalk.Act;
import org.faultwright.cli.text.PlanWalk.Way;
import org.faultwright.cli.text.PlanWords;

/** Blocks as Markdown: CommonMark with tables. The drawing is a nested list. */
final class MarkdownPaper {

  private final StringBuilder out = new StringBuilder();

  private MarkdownPaper() {}

  static String of(String title, List<Block> blocks) {
    MarkdownPaper markdown = new MarkdownPaper();
    markdown.out.append("# ").append(text(title)).append("\n");
    blocks.forEach(markdown::write);
    return markdown.out.toString();
  }

  /** Text in which nothing is taken for a mark. */
  static String text(String text) {
    StringBuilder escaped = new StringBuilder();
    Plain.of(text)
        .codePoints()
        .forEach(
            c -> {
              if ("\\`*_{}[]<>#|~&$@".indexOf(c) >= 0) {
                escaped.append('\\');
              }
              escaped.appendCodePoint(c);
            });
    // what some readers make links of by themselves
    return escaped.toString().replace("://", "\\://").replaceAll("(?i)\\b(www)\\.", "$1\\\\.");
  }

  /** Text at the beginning of a line, where more is taken for a mark. */
  static String start(String text) {
    return text(text)
        .replaceFirst("^([-+=])", "\\\\$1")
        .replaceFirst("^(\\d{1,9})([.)])", "$1\\\\$2");
  }

  private static String strong(String label) {
    return "**" + text(label) + "**";
  }

  private void write(Block block) {
    if (block instanceof Block.Heading h) {
      line("\n" + "#".repeat(h.level()) + " " + text(h.text()));
    } else if (block instanceof Block.NewSheet) {
      line("\n---");
    } else if (block instanceof Block.Warning w) {
      line("\n> " + strong(w.label()) + " " + text(w.text()));
    } else if (block instanceof Block.Paragraph p) {
      line("\n" + start(p.text()));
    } else if (block instanceof Block.Entries e) {
      out.append('\n');
      entries(e.entries());
    } else if (block instanceof Block.Items i) {
      out.append('\n');
      i.items().forEach(item -> line("- " + start(item)));
    } else if (block instanceof Block.Table t) {
      out.append('\n');
      row(t.head());
      row(t.head().stream().map(cell -> "---").toList());
      t.rows().forEach(cells -> row(cells.stream().map(MarkdownPaper::text).toList()));
    } else if (block instanceof Block.Drawings d) {
      out.append('\n');
      tree(d.parts().get(0).part().root(), "");
    } else if (block instanceof Block.Doing d) {
      doing(d);
    } else if (block instanceof Block.Blanks b) {
      out.append('\n');
      b.labels().forEach(label -> line("- " + start(label) + ": ....................."));
    }
  }

  private void line(String text) {
    out.append(text).append('\n');
  }

  private void row(List<String> cells) {
    line(cells.stream().collect(Collectors.joining(" | ", "| ", " |")));
  }

  private void entries(List<Entry> entries) {
    entries.forEach(e -> line("- " + strong(e.label()) + ": " + text(e.text())));
  }

  private void tree(Act act, String indent) {
    line(indent + "- **" + act.number() + "** " + text(act.headline()));
    for (Way way : act.ways()) {
      String lead =
          indent
              + "  - "
              + start(Naming.sentence(way.seen()))
              + ", "
              + text(Figures.percent(way.p()))
              + ": ";
      if (way.to() instanceof Act next) {
        line(lead + "go to " + next.number());
        holds(way, indent + "    ");
        tree(next, indent + "    ");
      } else {
        line(lead + text(PlanWords.leads(way.to())));
        holds(way, indent + "    ");
      }
    }
  }

  private void holds(Way way, String indent) {
    way.holds().forEach(hold -> line(indent + "- **HOLD** " + text(hold)));
  }

  private void doing(Block.Doing doing) {
    line("\n### " + doing.number() + " " + text(doing.headline()));
    line("\n" + start(doing.arrival()) + ".\n");
    entries(doing.entries());
    line("\nWhat comes out:\n");
    for (Block.Result result : doing.results()) {
      line(
          "- "
              + strong(result.seen())
              + ": "
              + (result.to().isPresent() ? "go to " : "")
              + text(result.leads()));
      result.holds().forEach(hold -> line("  - **HOLD** " + text(hold)));
    }
  }
}
