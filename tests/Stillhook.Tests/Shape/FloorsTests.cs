using System.Reflection.Metadata;
using System.Reflection.Metadata.Ecma335;
using System.Reflection.PortableExecutable;
using Stillhook.App.Commands;
using Stillhook.Physics.Air;
using Stillhook.Recording;

namespace Stillhook.Tests.Shape;

/// <summary>Floors 0 and 1 take values and give values: what their compiled code calls is read, so that no way round a rule of the sources helps.</summary>
public class FloorsTests
{
    private static readonly string[] Namespaces =
    [
        "System.Net", "System.IO.Pipes", "System.IO.Ports", "System.IO.MemoryMappedFiles", "System.IO.IsolatedStorage", "Microsoft.Win32",
        "System.Reflection.Emit", "Microsoft.Data", "Microsoft.EntityFrameworkCore", "Microsoft.AspNetCore", "Microsoft.Extensions",
    ];

    private static readonly string[] Types =
    [
        "System.Console", "System.Environment", "System.AppContext", "System.TimeProvider", "System.Diagnostics.Process", "System.Diagnostics.Stopwatch", "System.Threading.Thread", "System.Threading.Timer",
        "System.IO.File", "System.IO.FileInfo", "System.IO.FileStream", "System.IO.Directory", "System.IO.DirectoryInfo", "System.IO.DriveInfo", "System.IO.FileSystemWatcher", "System.IO.Path",
        "System.Diagnostics.Trace", "System.Diagnostics.Debug",
    ];

    private static readonly string[] Members =
    [
        "System.DateTime.get_Now", "System.DateTime.get_UtcNow", "System.DateTime.get_Today", "System.DateTimeOffset.get_Now", "System.DateTimeOffset.get_UtcNow", "System.TimeZoneInfo.get_Local",
        "System.Threading.Tasks.Task.Delay", "System.Random..ctor()", "System.Random.get_Shared", "System.Guid.NewGuid", "System.Guid.CreateVersion7", "System.DateTimeOffset.get_LocalDateTime",
        "System.DateTime.ToLocalTime", "System.DateTimeOffset.ToLocalTime",
    ];

    /// <summary>What the compiler writes for 'yield' and for a regular expression made when building.</summary>
    private static readonly string[] Compilers = ["System.Environment.get_CurrentManagedThreadId", "System.AppContext.GetData"];

    // Closed form: the list of what is called, read from the assembly, against the list of what may not be.
    [Theory]
    [InlineData(typeof(StandardAtmosphere))]
    [InlineData(typeof(FlightRecord))]
    public void Calls_OfAFloorBelow_ReachNothingOutside(Type inFloor) => Assert.Empty(Outside(inFloor));

    // Closed form: the program does all of this, so the reading must find it there.
    [Fact]
    public void Calls_OfTheProgram_AreFound()
    {
        string[] found = Outside(typeof(ExitCode));
        Assert.Contains("System.Console.WriteLine", found);
        Assert.Contains("System.IO.File.Exists", found);
        Assert.Contains("System.TimeProvider.get_System", found);
    }

    private static string[] Outside(Type inAssembly)
    {
        using PEReader file = new(File.OpenRead(inAssembly.Assembly.Location));
        MetadataReader metadata = file.GetMetadataReader();
        Assert.Equal(0, metadata.GetTableRowCount(TableIndex.ModuleRef)); // no native library either
        return [.. metadata.MemberReferences.Select(metadata.GetMemberReference).Select(m => Name(metadata, m)).OfType<string>().Where(IsOutside).Except(Compilers).Order(StringComparer.Ordinal)];
    }

    private static string? Name(MetadataReader metadata, MemberReference member)
    {
        if (member.Parent.Kind != HandleKind.TypeReference)
            return null;
        TypeReference type = metadata.GetTypeReference((TypeReferenceHandle)member.Parent);
        string name = $"{metadata.GetString(type.Namespace)}.{metadata.GetString(type.Name)}.{metadata.GetString(member.Name)}";
        bool noArguments = member.GetKind() == MemberReferenceKind.Method && metadata.GetBlobReader(member.Signature) is var s && s.ReadSignatureHeader().IsInstance && s.ReadCompressedInteger() == 0;
        return noArguments && name.EndsWith(".ctor", StringComparison.Ordinal) ? name + "()" : name;
    }

    private static bool IsOutside(string member) =>
        Members.Contains(member)
        || Types.Any(t => member.StartsWith(t + ".", StringComparison.Ordinal) && !member[(t.Length + 1)..].TrimStart('.').Contains('.', StringComparison.Ordinal))
        || Namespaces.Any(n => member.StartsWith(n + ".", StringComparison.Ordinal));
}
