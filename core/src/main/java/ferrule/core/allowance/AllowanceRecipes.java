package ferrule.core.allowance;

import ferrule.core.optics.FibreCategory;
import ferrule.core.optics.Wavelength;
import ferrule.core.rulebook.Rulebook;
import ferrule.core.zero.Method;
import java.util.HashMap;
import java.util.Map;

/** The recipes of one rulebook under one method, each worked out once. */
public final class AllowanceRecipes {

  private record Case(FibreCategory category, Wavelength wavelength, TestPlugs plugs) {}

  private final Rulebook rulebook;
  private final Method method;
  private final Map<Case, AllowanceRecipe> recipes = new HashMap<>();

  /** Begins with none worked out. */
  public AllowanceRecipes(Rulebook rulebook, Method method) {
    this.rulebook = rulebook;
    this.method = method;
  }

  /** The recipe for links of a category read at a wavelength between such plugs. */
  public AllowanceRecipe of(FibreCategory category, Wavelength wavelength, TestPlugs plugs) {
    return recipes.computeIfAbsent(
        new Case(category, wavelength, plugs),
        c -> new AllowanceRecipe(rulebook, c.category(), c.wavelength(), method, c.plugs()));
  }
}
