package org.faultwright.rules;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import org.drools.model.Model;
import org.drools.modelcompiler.KieBaseBuilder;
import org.faultwright.casefile.Intake;
import org.faultwright.pack.Pack;
import org.kie.api.KieBase;
import org.kie.api.conf.EqualityBehaviorOption;

/**
 * The rules, compiled when the library was built. Loaded once, on first use; immutable, shared by
 * any number of threads.
 */
public final class RuleBase {

  /** Where the build names the compiled rules. */
  private static final String NAMED_IN =
      "META-INF/kie/org.faultwright/faultwright-engine/drools-model";

  private final KieBase rules;

  private RuleBase(KieBase rules) {
    this.rules = rules;
  }

  private static final class Loaded {
    static final RuleBase SHARED = new RuleBase(load());
  }

  /**
   * The rules.
   *
   * @throws IllegalStateException when the library was packaged without them
   */
  public static RuleBase shared() {
    return Loaded.SHARED;
  }

  /** Makes a pack ready for the rules; worth keeping where several cases use it. */
  public PackRules forPack(Pack pack) {
    return new PackRules(rules, pack);
  }

  /** Opens a working memory for one case. {@link #forPack} saves work for the next one. */
  public WorkingMemory open(Pack pack, Intake intake) {
    return forPack(pack).open(intake);
  }

  private static KieBase load() {
    ClassLoader loader = RuleBase.class.getClassLoader();
    try (InputStream in = loader.getResourceAsStream(NAMED_IN)) {
      if (in == null) {
        throw new IllegalStateException("the library was packaged without its rules: " + NAMED_IN);
      }
      BufferedReader lines = new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8));
      String name =
          lines
              .lines()
              .filter(l -> !l.startsWith("Drools-Model-Version"))
              .findFirst()
              .orElseThrow(() -> new IllegalStateException("no rules are named in " + NAMED_IN));
      Model model =
          (Model) Class.forName(name.strip(), true, loader).getDeclaredConstructor().newInstance();
      return KieBaseBuilder.createKieBaseFromModel(model, EqualityBehaviorOption.EQUALITY);
    } catch (IOException | ReflectiveOperationException e) {
      throw new IllegalStateException("the rules cannot be loaded: " + NAMED_IN, e);
    }
  }

  /** The rules themselves, for tests that look at them. */
  KieBase rules() {
    return rules;
  }
}
