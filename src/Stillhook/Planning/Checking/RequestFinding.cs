using Stillhook.Recording;

namespace Stillhook.Planning.Checking;

/// <summary>Something wrong or missing in a request: where, what, how to mend it.</summary>
/// <param name="Severity">How much it matters; an error stops the plan.</param>
/// <param name="Code">Short stable name in kebab case.</param>
/// <param name="Path">Where in the request, such as <c>loads[3].mass</c>; member names in camel case without a unit.</param>
/// <param name="What">What was found, in one plain sentence.</param>
/// <param name="Mend">What was expected and how to mend it.</param>
public sealed record RequestFinding(Severity Severity, string Code, string Path, string What, string Mend);
