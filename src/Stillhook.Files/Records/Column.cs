using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace Stillhook.Files.Records;

/// <summary>A growing column of doubles that takes no memory until its first number.</summary>
/// <remarks>
/// It grows by blocks beside the collected heap, and each is given back the moment it is joined to the rest: however long the record, reading
/// needs one block more than it keeps. Arrays that grow by copying leave the copies until the collector sees fit.
/// </remarks>
internal sealed class Column
{
    private const int BlockLength = 1 << 15, LastOfBlock = BlockLength - 1; // 256 KiB: large enough to go back to the system by itself

    private readonly List<Block> _blocks = [];
    private Block? _last;
    private int _count;

    /// <summary>True once a number was set.</summary>
    public bool Used => _count > 0;

    /// <summary>Sets the value last set again or a later one; those between are NaN.</summary>
    public void Set(int index, double value)
    {
        if (index < _count)
        {
            _last!.Values[index & LastOfBlock] = value;
            return;
        }

        if (double.IsNaN(value)) return;
        while (_count < index) Append(double.NaN);
        Append(value);
    }

    /// <summary>The first <paramref name="count"/> values; empty when there never was a number and <paramref name="always"/> is false. The column can't be used afterwards.</summary>
    public double[] ToArray(int count, bool always)
    {
        if (!Used && !always) return [];
        double[] all = GC.AllocateUninitializedArray<double>(count);
        int known = Math.Min(count, _count);
        for (int at = 0; at < known; at += BlockLength)
        {
            Block block = _blocks[at / BlockLength];
            block.Values[..Math.Min(BlockLength, known - at)].CopyTo(all.AsSpan(at));
            block.Free();
        }

        all.AsSpan(known).Fill(double.NaN);
        return all;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private void Append(double value)
    {
        int at = _count++ & LastOfBlock;
        if (at == 0) AddBlock();
        _last!.Values[at] = value;
    }

    [MethodImpl(MethodImplOptions.NoInlining)] // a call out of the runtime costs at every entry of the method it stands in
    private void AddBlock() => _blocks.Add(_last = new Block());

    /// <summary>Memory that is given back by <see cref="Free"/>, or by the collector when reading broke off.</summary>
    private sealed unsafe class Block
    {
        private double* _values = (double*)NativeMemory.Alloc(BlockLength, sizeof(double));

        ~Block() => NativeMemory.Free(_values);

        public Span<double> Values => new(_values, BlockLength);

        public void Free()
        {
            NativeMemory.Free(_values);
            _values = null;
            GC.SuppressFinalize(this);
        }
    }
}
