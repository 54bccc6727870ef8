namespace Stillhook.Files.Records;

/// <summary>A growing column of doubles that takes no memory until its first number.</summary>
internal sealed class Column
{
    private double[] _values = [];

    /// <summary>True once a number was set.</summary>
    public bool Used => _values.Length > 0;

    public double this[int index] => index < _values.Length ? _values[index] : double.NaN;

    public void Set(int index, double value)
    {
        if (index >= _values.Length)
        {
            if (double.IsNaN(value)) return;
            Grow(index);
        }

        _values[index] = value;
    }

    /// <summary>The first <paramref name="count"/> values; empty when there never was a number and <paramref name="always"/> is false.</summary>
    public double[] ToArray(int count, bool always)
    {
        if (!Used && !always) return [];
        int known = _values.Length;
        if (known != count) Array.Resize(ref _values, count);
        if (known < count) Array.Fill(_values, double.NaN, known, count - known);
        return _values;
    }

    private void Grow(int index)
    {
        int known = _values.Length;
        Array.Resize(ref _values, Math.Max(1024, Math.Max(index + 1, known + known / 2)));
        Array.Fill(_values, double.NaN, known, _values.Length - known);
    }
}
