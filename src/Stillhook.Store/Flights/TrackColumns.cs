using System.Buffers.Binary;
using System.Runtime.InteropServices;
using Stillhook.Debriefing;
using Stillhook.Physics.Earth;

namespace Stillhook.Store;

/// <summary>A smoothed track as columns: 32-bit floats, little-endian, one value a knot; the time in 64 bits, since a float would be 64 s off in 2026.</summary>
/// <remarks>In a day's 20 km a float keeps position to 1 mm. The fixes that the knots were smoothed from are in the record and aren't kept twice.</remarks>
internal static class TrackColumns
{
    private const string Time = "timeS", Starts = "stretchStarts";

    /// <summary>Every 32-bit column by name.</summary>
    private static IEnumerable<(string Name, double[] Values)> Doubles(Track t) =>
    [
        ("eastM", t.East), ("northM", t.North), ("upM", t.Up),
        ("velocityEastMs", t.VelocityEast), ("velocityNorthMs", t.VelocityNorth), ("velocityUpMs", t.VelocityUp),
        ("accelerationEastMs2", t.AccelerationEast), ("accelerationNorthMs2", t.AccelerationNorth), ("accelerationUpMs2", t.AccelerationUp),
    ];

    private static IEnumerable<(string Name, float[] Values)> Floats(Track t) =>
    [
        ("horizontalErrorM", t.HorizontalErrorM), ("horizontalVelocityErrorMs", t.HorizontalVelocityErrorMs), ("horizontalAccelerationErrorMs2", t.HorizontalAccelerationErrorMs2),
        ("heightErrorM", t.HeightErrorM), ("climbErrorMs", t.ClimbErrorMs), ("verticalAccelerationErrorMs2", t.VerticalAccelerationErrorMs2),
    ];

    public static TrackRow Frame(long flightId, Track track) => new()
    {
        FlightId = flightId,
        LatitudeDeg = track.Frame.LatitudeDeg,
        LongitudeDeg = track.Frame.LongitudeDeg,
        HeightM = track.Frame.HeightM,
        HasHeight = track.HasHeight,
    };

    public static IEnumerable<TrackColumnRow> Columns(long flightId, Track track)
    {
        TrackColumnRow Row(string name, byte[] data) => new() { FlightId = flightId, Name = name, Data = data };
        yield return Row(Time, Bytes(track.TimeS));
        yield return Row(Starts, Bytes(track.StretchStarts));
        foreach ((string name, double[] values) in Doubles(track))
            yield return Row(name, Bytes(Array.ConvertAll(values, v => (float)v)));
        foreach ((string name, float[] values) in Floats(track))
            yield return Row(name, Bytes(values));
    }

    public static Track Read(TrackRow frame, IReadOnlyDictionary<string, byte[]> columns)
    {
        float[] Single(string name) => Values<float>(columns[name]);
        double[] Double(string name) => Array.ConvertAll(Single(name), v => (double)v);
        return new()
        {
            Frame = new LocalFrame(frame.LatitudeDeg, frame.LongitudeDeg, frame.HeightM),
            HasHeight = frame.HasHeight,
            TimeS = Values<double>(columns[Time]),
            StretchStarts = Values<int>(columns[Starts]),
            East = Double("eastM"),
            North = Double("northM"),
            Up = Double("upM"),
            VelocityEast = Double("velocityEastMs"),
            VelocityNorth = Double("velocityNorthMs"),
            VelocityUp = Double("velocityUpMs"),
            AccelerationEast = Double("accelerationEastMs2"),
            AccelerationNorth = Double("accelerationNorthMs2"),
            AccelerationUp = Double("accelerationUpMs2"),
            HorizontalErrorM = Single("horizontalErrorM"),
            HorizontalVelocityErrorMs = Single("horizontalVelocityErrorMs"),
            HorizontalAccelerationErrorMs2 = Single("horizontalAccelerationErrorMs2"),
            HeightErrorM = Single("heightErrorM"),
            ClimbErrorMs = Single("climbErrorMs"),
            VerticalAccelerationErrorMs2 = Single("verticalAccelerationErrorMs2"),
        };
    }

    private static byte[] Bytes<T>(T[] values) where T : unmanaged
    {
        byte[] bytes = MemoryMarshal.AsBytes(values.AsSpan()).ToArray();
        return InFileOrder<T>(bytes);
    }

    private static T[] Values<T>(byte[] bytes) where T : unmanaged => MemoryMarshal.Cast<byte, T>(InFileOrder<T>([.. bytes])).ToArray();

    /// <summary>Little-endian on every machine.</summary>
    private static byte[] InFileOrder<T>(byte[] bytes) where T : unmanaged
    {
        if (BitConverter.IsLittleEndian)
            return bytes;
        if (Marshal.SizeOf<T>() == sizeof(double))
            BinaryPrimitives.ReverseEndianness(MemoryMarshal.Cast<byte, ulong>(bytes.AsSpan()), MemoryMarshal.Cast<byte, ulong>(bytes.AsSpan()));
        else
            BinaryPrimitives.ReverseEndianness(MemoryMarshal.Cast<byte, uint>(bytes.AsSpan()), MemoryMarshal.Cast<byte, uint>(bytes.AsSpan()));
        return bytes;
    }
}
