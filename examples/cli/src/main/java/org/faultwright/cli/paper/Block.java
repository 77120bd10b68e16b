package org.faultwright.cli.paper;

import java.util.List;
import java.util.OptionalInt;

/** One of the things that a page is made of. Its words are as the pack has them. */
sealed interface Block {

  /** A heading, level 2 or 3. */
  record Heading(int level, String text) implements Block {}

  /** A new sheet begins here. */
  record NewSheet() implements Block {}

  /** What must be read before anything else. */
  record Warning(String label, String text) implements Block {}

  /** Running text. */
  record Paragraph(String text) implements Block {}

  /** Labels, each with text beside it. */
  record Entries(List<Entry> entries) implements Block {

    /** Copies the list. */
    public Entries {
      entries = List.copyOf(entries);
    }
  }

  /**
   * A label with text.
   *
   * @param warns whether it is a caution
   */
  record Entry(String label, String text, boolean warns) {}

  /** A list of things. */
  record Items(List<String> items) implements Block {

    /** Copies the list. */
    public Items {
      items = List.copyOf(items);
    }
  }

  /** A table; the first cell of each row is its heading. */
  record Table(List<String> head, List<List<String>> rows) implements Block {

    /** Copies the lists. */
    public Table {
      head = List.copyOf(head);
      rows = rows.stream().map(List::copyOf).toList();
    }
  }

  /** What the outlines of a drawing mean; where there is no drawing, nothing. */
  record Legend() implements Block {}

  /** The plan in parts, each with the cautions that it speaks of. */
  record Drawings(List<Drawn> parts) implements Block {

    /** Copies the list. */
    public Drawings {
      parts = List.copyOf(parts);
    }
  }

  /**
   * A part of the plan.
   *
   * @param caption which it is, and where it comes from
   * @param cautions in full
   */
  record Drawn(Part part, String caption, List<Entry> cautions) {

    /** Copies the list. */
    public Drawn {
      cautions = List.copyOf(cautions);
    }
  }

  /**
   * Something to do.
   *
   * @param arrival how it is come to
   * @param entries all that is to be known about it
   */
  record Doing(
      int number, String headline, String arrival, List<Entry> entries, List<Result> results)
      implements Block {

    /** Copies the lists. */
    public Doing {
      entries = List.copyOf(entries);
      results = List.copyOf(results);
    }
  }

  /**
   * What may come out.
   *
   * @param holds what must be read first then
   * @param leads what follows
   * @param to the number of what is to be done next, where there is something
   */
  record Result(String seen, List<String> holds, String leads, OptionalInt to) {

    /** Copies the list. */
    public Result {
      holds = List.copyOf(holds);
    }
  }

  /** Lines to write on by hand. */
  record Blanks(List<String> labels) implements Block {

    /** Copies the list. */
    public Blanks {
      labels = List.copyOf(labels);
    }
  }
}
