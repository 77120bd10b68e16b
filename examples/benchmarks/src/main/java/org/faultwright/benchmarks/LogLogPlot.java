package org.faultwright.benchmarks;

import java.util.Locale;

/** A plot with logarithmic axes, as SVG. */
final class LogLogPlot {

  private static final int WIDTH = 720;
  private static final int HEIGHT = 460;
  private static final int LEFT = 80;
  private static final int RIGHT = 230;
  private static final int TOP = 20;
  private static final int BOTTOM = 50;

  private final double xFrom;
  private final double xTo;
  private final double yFrom;
  private final double yTo;
  private final StringBuilder body = new StringBuilder();

  /** Axes from one power of ten to another. */
  LogLogPlot(String xTitle, double xFrom, double xTo, double yFrom, double yTo) {
    this.xFrom = xFrom;
    this.xTo = xTo;
    this.yFrom = yFrom;
    this.yTo = yTo;
    for (double x = xFrom; x <= xTo * 1.01; x *= 10) {
      line(x(x), y(yFrom), x(x), y(yTo));
      text(x(x), y(yFrom) + 18, "middle", String.format(Locale.ROOT, "%,.0f", x));
    }
    for (double y = yFrom; y <= yTo * 1.01; y *= 10) {
      line(x(xFrom), y(y), x(xTo), y(y));
      text(x(xFrom) - 8, y(y) + 4, "end", String.format(Locale.ROOT, "%,.0f", y));
    }
    text((x(xFrom) + x(xTo)) / 2, y(yFrom) + 38, "middle", xTitle);
  }

  /** Adds a line with its name at its end. */
  void series(String name, String colour, double[][] points) {
    body.append("<polyline fill=\"none\" stroke-width=\"2\" stroke=\"")
        .append(colour)
        .append("\" points=\"");
    for (double[] p : points) {
      body.append(String.format(Locale.ROOT, "%.1f,%.1f ", x(p[0]), y(p[1])));
    }
    body.append("\"/>\n");
    for (double[] p : points) {
      body.append(
          String.format(
              Locale.ROOT,
              "<circle cx=\"%.1f\" cy=\"%.1f\" r=\"3\" fill=\"%s\"/>%n",
              x(p[0]),
              y(p[1]),
              colour));
    }
    double[] last = points[points.length - 1];
    body.append(
        String.format(
            Locale.ROOT,
            "<text x=\"%.1f\" y=\"%.1f\" fill=\"%s\">%s</text>%n",
            x(last[0]) + 8,
            y(last[1]) + 4,
            colour,
            name));
  }

  String svg() {
    return String.format(
        Locale.ROOT,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%d\" height=\"%d\""
            + " font-family=\"sans-serif\" font-size=\"12\">%n"
            + "<rect width=\"100%%\" height=\"100%%\" fill=\"white\"/>%n%s</svg>%n",
        WIDTH,
        HEIGHT,
        body);
  }

  private double x(double value) {
    return LEFT + (WIDTH - LEFT - RIGHT) * Math.log(value / xFrom) / Math.log(xTo / xFrom);
  }

  private double y(double value) {
    return HEIGHT
        - BOTTOM
        - (HEIGHT - TOP - BOTTOM) * Math.log(value / yFrom) / Math.log(yTo / yFrom);
  }

  private void line(double x1, double y1, double x2, double y2) {
    body.append(
        String.format(
            Locale.ROOT,
            "<line x1=\"%.1f\" y1=\"%.1f\" x2=\"%.1f\" y2=\"%.1f\" stroke=\"#ddd\"/>%n",
            x1,
            y1,
            x2,
            y2));
  }

  private void text(double x, double y, String anchor, String text) {
    body.append(
        String.format(
            Locale.ROOT,
            "<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"%s\" fill=\"#444\">%s</text>%n",
            x,
            y,
            anchor,
            text));
  }
}
