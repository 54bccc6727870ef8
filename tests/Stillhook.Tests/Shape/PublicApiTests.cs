using PublicApiGenerator;
using Stillhook.Physics.Air;
using Stillhook.Recording;

namespace Stillhook.Tests.Shape;

/// <summary>What floors 0 and 1 offer, read and approved as text: a change of a name, a unit in a name or a default is seen before it is shipped.</summary>
public class PublicApiTests
{
    // Pinned: docs/api/*.txt, read by a person; STILLHOOK_APPROVE=1 writes it anew.
    [Theory]
    [InlineData(typeof(StandardAtmosphere), "docs/api/Stillhook.Physics.txt")]
    [InlineData(typeof(FlightRecord), "docs/api/Stillhook.txt")]
    public void Api_IsAsApproved(Type inAssembly, string approved)
    {
        string now = inAssembly.Assembly.GeneratePublicApi(new() { IncludeAssemblyAttributes = false }).ReplaceLineEndings("\n") + "\n", file = Repository.File(approved);
        if (Environment.GetEnvironmentVariable("STILLHOOK_APPROVE") == "1")
            File.WriteAllText(file, now);
        Assert.True(File.Exists(file), $"{approved} is missing: run the tests once with STILLHOOK_APPROVE=1 and read what it wrote.");
        Assert.Equal(File.ReadAllText(file).ReplaceLineEndings("\n"), now);
    }
}
