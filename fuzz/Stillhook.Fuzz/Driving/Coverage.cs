using System.Runtime.InteropServices;

namespace Stillhook.Fuzz.Driving;

/// <summary>Which branches of the instrumented code an input took, and how often, in steps of about a doubling.</summary>
public sealed unsafe class Coverage
{
    private const int Size = 1 << 16;
    private static readonly byte[] s_steps = [.. Enumerable.Range(0, 256).Select(n => (byte)(n switch { 0 => 0, 1 => 1, 2 => 2, 3 => 4, < 8 => 8, < 16 => 16, < 32 => 32, < 128 => 64, _ => 128 }))];
    private static readonly byte* s_map = (byte*)NativeMemory.AllocZeroed(Size); // for the whole life of the process: instrumented code writes there at any time
    private readonly byte[] _seen = new byte[Size];

    /// <summary>To be called before any instrumented code runs.</summary>
    public static void Prepare() => SharpFuzz.Common.Trace.SharedMem = s_map;

    /// <summary>Branches met so far.</summary>
    public int Edges => _seen.Count(b => b != 0);

    /// <summary>Begins an input.</summary>
    public void Begin()
    {
        new Span<byte>(s_map, Size).Clear();
        SharpFuzz.Common.Trace.PrevLocation = 0;
    }

    /// <summary>True when the input took a branch, or took one in a number, not met before.</summary>
    public bool AnythingNew()
    {
        bool any = false;
        for (int word = 0; word < Size; word += sizeof(ulong))
        {
            if (*(ulong*)(s_map + word) == 0) continue;
            for (int i = word; i < word + sizeof(ulong); i++)
            {
                byte step = s_steps[s_map[i]];
                if ((step & ~_seen[i]) == 0) continue;
                _seen[i] |= step;
                any = true;
            }
        }

        return any;
    }

    /// <summary>The branches of the last input.</summary>
    public IReadOnlyList<int> Branches() => [.. Enumerable.Range(0, Size).Where(i => s_map[i] != 0)];
}
