package org.faultwright.cli.paper;

import static org.faultwright.cli.paper.Markup.text;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.stream.Collectors;
import org.faultwright.cli.paper.Block.Entry;

/**
 * Blocks as one HTML file, well-formed as XML too. It holds no script and asks for nothing from
 * outside, and forbids both to whatever might have crept in.
 */
final class HtmlPaper {

  private final StringBuilder out = new StringBuilder();

  private HtmlPaper() {}

  static String of(String title, List<Block> blocks) {
    HtmlPaper html = new HtmlPaper();
    html.begin(title);
    for (int i = 0; i < blocks.size(); i++) {
      boolean step = blocks.get(i) instanceof Block.Doing;
      if (step && !(blocks.get(i - 1) instanceof Block.Doing)) {
        html.out.append("<div class=\"steps\">\n");
      }
      html.write(blocks.get(i));
      if (step && !(blocks.get(i + 1) instanceof Block.Doing)) {
        html.out.append("</div>\n");
      }
    }
    html.out.append("</main>\n</body>\n</html>\n");
    return html.out.toString();
  }

  private void begin(String title) {
    out.append("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n");
    out.append("<meta http-equiv=\"Content-Security-Policy\"");
    out.append(" content=\"default-src 'none'; style-src 'unsafe-inline'\"/>\n");
    out.append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n");
    out.append("<meta name=\"color-scheme\" content=\"only light\"/>\n");
    out.append("<title>").append(text(title)).append("</title>\n");
    out.append("<style>\n").append(style()).append("</style>\n</head>\n<body>\n<main>\n");
    out.append("<h1>").append(text(title)).append("</h1>\n");
  }

  private static String style() {
    try (InputStream in = HtmlPaper.class.getResourceAsStream("paper.css")) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private void write(Block block) {
    if (block instanceof Block.Heading h) {
      element("h" + h.level(), "", text(h.text()));
    } else if (block instanceof Block.NewSheet) {
      out.append("<hr class=\"sheet\"/>\n");
    } else if (block instanceof Block.Warning w) {
      element("p", "warning", strong(w.label()) + " " + text(w.text()));
    } else if (block instanceof Block.Paragraph p) {
      element("p", "", text(p.text()));
    } else if (block instanceof Block.Entries e) {
      entries(e.entries());
    } else if (block instanceof Block.Items i) {
      out.append("<ul class=\"facts\">\n");
      i.items().forEach(item -> element("li", "", text(item)));
      out.append("</ul>\n");
    } else if (block instanceof Block.Table t) {
      table(t);
    } else if (block instanceof Block.Legend) {
      out.append("<div class=\"legend\">\n");
      Legend.svgs().forEach(out::append);
      out.append("</div>\n");
    } else if (block instanceof Block.Drawings d) {
      d.parts().forEach(this::drawing);
    } else if (block instanceof Block.Doing d) {
      doing(d);
    } else if (block instanceof Block.Blanks b) {
      out.append("<dl class=\"blanks\">\n");
      b.labels()
          .forEach(
              label ->
                  out.append("<div><dt>").append(text(label)).append("</dt><dd></dd></div>\n"));
      out.append("</dl>\n");
    }
  }

  private void element(String name, String style, String inner) {
    out.append('<').append(name);
    if (!style.isEmpty()) {
      out.append(" class=\"").append(style).append('"');
    }
    out.append('>').append(inner).append("</").append(name).append(">\n");
  }

  private static String strong(String label) {
    return "<strong>" + text(label) + "</strong>";
  }

  private void entries(List<Entry> entries) {
    out.append("<dl>\n");
    for (Entry e : entries) {
      out.append(e.warns() ? "<div class=\"caution\">" : "<div>");
      out.append("<dt>").append(text(e.label())).append("</dt><dd>");
      out.append(text(e.text())).append("</dd></div>\n");
    }
    out.append("</dl>\n");
  }

  private void table(Block.Table table) {
    out.append("<table>\n<thead><tr>");
    table
        .head()
        .forEach(cell -> out.append("<th scope=\"col\">").append(text(cell)).append("</th>"));
    out.append("</tr></thead>\n<tbody>\n");
    for (List<String> row : table.rows()) {
      out.append("<tr><th scope=\"row\">").append(text(row.get(0))).append("</th>");
      row.stream().skip(1).forEach(cell -> out.append("<td>").append(text(cell)).append("</td>"));
      out.append("</tr>\n");
    }
    out.append("</tbody>\n</table>\n");
  }

  private void drawing(Block.Drawn drawn) {
    Part part = drawn.part();
    out.append("<figure id=\"part-").append(part.number()).append("\">\n<figcaption>");
    out.append(strong(drawn.caption()));
    if (!part.elsewhere().isEmpty()) {
      out.append(". Goes on in ");
      out.append(
          part.elsewhere().stream()
              .map(n -> "<a href=\"#part-" + n + "\">part " + n + "</a>")
              .collect(Collectors.joining(", ")));
    }
    out.append("<span class=\"push\"> Push the drawing sideways to see all of it.</span>");
    out.append("</figcaption>\n<div class=\"drawing\" tabindex=\"0\" role=\"group\" aria-label=\"");
    out.append("Drawing of part ").append(part.number()).append("\">\n");
    String steps =
        part.acts().stream().map(a -> String.valueOf(a.number())).collect(Collectors.joining(", "));
    out.append(
        Drawing.of(
            part.sketch(),
            "drawing-" + part.number(),
            drawn.caption(),
            "A tree of boxes from left to right: what to do, and for each result what follows. The"
                + " same stands in words under Step by step, in the steps "
                + steps
                + "."));
    out.append("</div>\n");
    if (!drawn.cautions().isEmpty()) {
      entries(drawn.cautions());
    }
    out.append("</figure>\n");
  }

  private void doing(Block.Doing doing) {
    out.append("<section class=\"step\" id=\"step-").append(doing.number()).append("\">\n");
    element("h3", "", "<b>" + doing.number() + "</b> " + text(doing.headline()));
    element("p", "arrival", text(doing.arrival()));
    entries(doing.entries());
    out.append("<ul class=\"results\">\n");
    for (Block.Result result : doing.results()) {
      out.append("<li><b>").append(text(result.seen())).append(":</b> ");
      if (result.to().isPresent()) {
        out.append("go to <a href=\"#step-").append(result.to().getAsInt()).append("\">");
        out.append(text(result.leads())).append("</a>");
      } else {
        out.append(text(result.leads()));
      }
      for (String hold : result.holds()) {
        out.append("<div class=\"warning\">").append(strong("HOLD")).append(' ');
        out.append(text(hold)).append("</div>");
      }
      out.append("</li>\n");
    }
    out.append("</ul>\n</section>\n");
  }
}
