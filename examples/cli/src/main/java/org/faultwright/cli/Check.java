package org.faultwright.cli;

import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.faultwright.casefile.CaseReader;
import org.faultwright.casefile.CaseReading;
import org.faultwright.cli.text.CheckText;
import org.faultwright.cli.text.Page;
import org.faultwright.diagnosis.CaseCheck;
import org.faultwright.diagnosis.Engine;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PackId;
import org.faultwright.pack.reader.PackLibrary;
import org.faultwright.pack.reader.PackReader;
import org.faultwright.pack.reader.PackReading;
import org.faultwright.pack.yaml.YamlText;
import org.faultwright.problem.Nearest;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;

/** Holds the cases of packs to what they expect. */
@Command(
    name = "check",
    mixinStandardHelpOptions = true,
    description = "Run the cases of packs and compare what comes out with what they expect.",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:Every case came out as expected.",
      "1:A case did not come out as expected, or a pack or a case has errors.",
      "2:The command was not understood, or a pack is not there.",
      "3:A fault of Faultwright itself."
    })
final class Check implements Callable<Integer> {

  private final Surroundings surroundings;

  @Parameters(
      arity = "0..*",
      paramLabel = "PACK|DIR",
      description =
          "Packs by name (family/subsystem), or folders with packs at any depth, but for a target"
              + " beside a pom.xml: what Maven builds are copies. Without any: all packs that there"
              + " are.")
  private List<String> names = new ArrayList<>();

  @Mixin private PacksOption packs = new PacksOption();

  @Mixin private ShopOption shop = new ShopOption();

  Check(Surroundings surroundings) {
    this.surroundings = surroundings;
  }

  @Override
  public Integer call() {
    List<Bundle> bundles = new ArrayList<>();
    if (names.isEmpty()) {
      packs.library(Optional.empty()).ids().forEach(id -> bundles.add(bundle(id)));
    }
    for (String name : names) {
      bundles.addAll(bundles(name));
    }
    Engine engine = shop.engine(surroundings);
    boolean good = true;
    for (Bundle bundle : bundles) {
      good &= run(engine, bundle);
    }
    return good ? ExitCode.CLEAN : ExitCode.FINDINGS;
  }

  private List<Bundle> bundles(String name) {
    if (isFolder(name)) {
      List<Bundle> found = Bundle.in(Path.of(name));
      if (found.isEmpty()) {
        throw Stopped.byUsage("folder '" + name + "' has no pack.yaml in it");
      }
      return found;
    }
    PackLibrary library = packs.library(Optional.empty());
    List<String> known = library.ids().stream().map(PackId::toString).sorted().toList();
    if (!known.contains(name)) {
      throw Stopped.byUsage(
          "there is no pack and no folder '"
              + name
              + "'; "
              + Nearest.of(name, known)
                  .map(near -> "did you mean '" + near + "'?")
                  .orElse("the packs are: " + String.join(", ", known)));
    }
    return List.of(bundle(PackId.parse(name)));
  }

  private Bundle bundle(PackId id) {
    return Bundle.of(id, packs.folders()).orElseThrow();
  }

  private static boolean isFolder(String name) {
    try {
      return Files.isDirectory(Path.of(name));
    } catch (InvalidPathException e) {
      return false;
    }
  }

  private boolean run(Engine engine, Bundle bundle) {
    if (!(new PackReader().read(bundle.pack()) instanceof PackReading.Readable readable)) {
      surroundings.tell(
          "pack " + bundle.pack().file() + " has errors and was not run; lint shows them");
      return false;
    }
    Pack pack = readable.pack();
    Engines.checkUsable(engine, pack);
    CheckText text = new CheckText(new Page(surroundings.screen()), pack);
    CaseCheck check = new CaseCheck(engine);
    boolean good = true;
    for (YamlText caseText : bundle.cases()) {
      if (new CaseReader(pack).read(caseText) instanceof CaseReading.Readable c) {
        if (c.caseFile().expectation().isEmpty()) {
          text.expectsNothing();
        } else {
          text.add(check.run(pack, c.caseFile()), caseText.file());
        }
      } else {
        surroundings.tell(
            "case " + caseText.file() + " has errors and was not run; lint shows them");
        good = false;
      }
    }
    text.finish().printOn(surroundings.out());
    return good && text.allPassed();
  }
}
