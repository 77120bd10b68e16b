package org.faultwright.cli.paper;

import static org.faultwright.cli.paper.Markup.length;

import java.util.List;

/**
 * A sketch as SVG that needs nothing from outside: no style sheet, no script, no font. Black on
 * white, with one light grey that carries no meaning.
 */
final class Drawing {

  private static final double ROUND = 14;
  private static final double POINT = 9;
  private static final double BAR = 6;

  private final StringBuilder out = new StringBuilder();

  private Drawing() {}

  /**
   * The drawing.
   *
   * @param id of the element; its title and description are called after it
   * @param title what it shows, in a few words
   * @param description where the same is said in words
   */
  static String of(Sketch sketch, String id, String title, String description) {
    Drawing drawing = new Drawing();
    drawing.write(sketch, id, title, description);
    return drawing.out.toString();
  }

  private void write(Sketch sketch, String id, String title, String description) {
    String width = length(sketch.width());
    String height = length(sketch.height());
    out.append("<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" id=\"").append(id);
    out.append("\" aria-labelledby=\"").append(id).append("-title ").append(id).append("-desc\"");
    out.append(" width=\"").append(width).append("\" height=\"").append(height);
    out.append("\" viewBox=\"0 0 ").append(width).append(' ').append(height);
    out.append("\" font-family=\"'Liberation Sans', Arial, Helvetica, 'DejaVu Sans', sans-serif\"");
    out.append(" fill=\"none\" stroke=\"none\">\n");
    out.append("<title id=\"").append(id).append("-title\">");
    out.append(Markup.text(title)).append("</title>\n");
    out.append("<desc id=\"").append(id).append("-desc\">");
    out.append(Markup.text(description)).append("</desc>\n");
    out.append("<rect width=\"").append(width).append("\" height=\"").append(height);
    out.append("\" fill=\"#fff\"/>\n");
    sketch.arrows().forEach(arrow -> write(sketch.corners(arrow)));
    sketch.boxes().forEach(this::write);
    out.append("</svg>\n");
  }

  private void write(List<double[]> corners) {
    StringBuilder path = new StringBuilder();
    for (double[] c : corners) {
      path.append(path.isEmpty() ? "M" : " L")
          .append(length(c[0]))
          .append(' ')
          .append(length(c[1]));
    }
    double[] end = corners.get(corners.size() - 1);
    out.append("<path d=\"").append(path).append("\" stroke=\"#000\" stroke-width=\"1.4\"/>\n");
    out.append("<path d=\"M").append(length(end[0])).append(' ').append(length(end[1]));
    out.append(" l-8 -4.5 v9 z\" fill=\"#000\"/>\n");
  }

  private void write(Sketch.Placed placed) {
    Box box = placed.box();
    double x = placed.x();
    double y = placed.y();
    String shape = outline(box);
    out.append("<g transform=\"translate(").append(length(x)).append(' ').append(length(y));
    out.append(")\">\n");
    out.append("<path d=\"").append(shape).append("\" fill=\"#fff\"/>\n");
    if (!box.head().isEmpty()) {
      band(box);
    }
    String dashes = box.outline() == Box.Outline.OPEN ? " stroke-dasharray=\"6 4\"" : "";
    String thick = box.outline() == Box.Outline.REPAIR ? "2" : "1.4";
    out.append("<path d=\"").append(shape).append("\" stroke=\"#000\" stroke-width=\"");
    out.append(thick).append('"').append(dashes).append("/>\n");
    if (box.outline() == Box.Outline.REPAIR) {
      out.append("<rect width=\"").append(length(BAR)).append("\" height=\"");
      out.append(length(box.height())).append("\" fill=\"#000\"/>\n");
    }
    text(box.head(), Box.EDGE);
    text(box.body(), box.headHeight() + Box.EDGE);
    out.append("</g>\n");
  }

  /** The band keeps within the outline; it is at least as high as a corner is round. */
  private void band(Box box) {
    String h = length(box.headHeight());
    double w = Box.WIDTH;
    String shape =
        switch (box.outline()) {
          case END -> {
            String r = length(ROUND);
            yield "M0 "
                + h
                + corner("0", r, r, "0")
                + corner(length(w - ROUND), "0", length(w), r)
                + " V"
                + h
                + " z";
          }
          case ELSEWHERE -> "M0 0 H" + length(w - POINT) + " V" + h + " H0 z";
          default -> "M0 0 H" + length(w) + " V" + h + " H0 z";
        };
    out.append("<path d=\"").append(shape).append("\" fill=\"#e9e9e9\"/>\n");
  }

  private static String corner(String x1, String y1, String x2, String y2) {
    return " L"
        + x1
        + " "
        + y1
        + " A"
        + length(ROUND)
        + " "
        + length(ROUND)
        + " 0 0 1 "
        + x2
        + " "
        + y2;
  }

  private static String outline(Box box) {
    double w = Box.WIDTH;
    double h = box.height();
    return switch (box.outline()) {
      case END -> {
        String r = length(ROUND);
        yield "M0 "
            + length(h - ROUND)
            + corner("0", r, r, "0")
            + corner(length(w - ROUND), "0", length(w), r)
            + corner(length(w), length(h - ROUND), length(w - ROUND), length(h))
            + corner(r, length(h), "0", length(h - ROUND))
            + " z";
      }
      case ELSEWHERE ->
          "M0 0 H"
              + length(w - POINT)
              + " L"
              + length(w)
              + " "
              + length(h / 2)
              + " L"
              + length(w - POINT)
              + " "
              + length(h)
              + " H0 z";
      default -> "M0 0 H" + length(w) + " V" + length(h) + " H0 z";
    };
  }

  private void text(List<Box.Line> lines, double top) {
    double y = top;
    for (Box.Line line : lines) {
      double base = y + 1.02 * line.size();
      double x = Box.SIDE;
      if (line.sign()) {
        sign(x, base);
        x += Box.Line.SIGN;
      }
      out.append("<text x=\"").append(length(x)).append("\" y=\"").append(length(base));
      out.append("\" font-size=\"").append(length(line.size())).append("\" fill=\"#000\"");
      out.append(line.bold() ? " font-weight=\"bold\"" : "");
      // letters of any other make are fitted to this length
      Lettering.exact(line.text(), line.size(), line.bold())
          .ifPresent(
              length ->
                  out.append(" textLength=\"")
                      .append(length(length))
                      .append("\" lengthAdjust=\"spacingAndGlyphs\""));
      out.append('>');
      out.append(Markup.text(line.text())).append("</text>\n");
      y += line.height();
    }
  }

  /** A triangle with a bar and a dot, as warnings at work have it (ISO 7010, W001). */
  private void sign(double x, double base) {
    out.append("<path d=\"M").append(length(x)).append(' ').append(length(base + 0.5));
    out.append(" l6 -10.5 l6 10.5 z\" fill=\"#fff\" stroke=\"#000\" stroke-width=\"1.4\"");
    out.append(" stroke-linejoin=\"round\"/>\n");
    out.append("<path d=\"M").append(length(x + 6)).append(' ').append(length(base - 6.5));
    out.append(" v3.6 m0 1.3 v1.2\" stroke=\"#000\" stroke-width=\"1.5\"/>\n");
  }
}
