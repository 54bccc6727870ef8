using Stillhook.Files.Records;

namespace Stillhook.Tests.Files.Records;

/// <summary>Columns over the ends of their blocks of 32,768 values, and bytes found over the ends of pieces of sixteen.</summary>
public class ColumnTests
{
    // Closed form: what was set comes out where it was set, all else is no number.
    [Theory]
    [InlineData(0, 1), InlineData(0, 32_767), InlineData(0, 32_768), InlineData(0, 32_769), InlineData(5, 100_000), InlineData(32_768, 32_769), InlineData(70_000, 70_001), InlineData(3, 3)]
    public void ToArray_ValuesFromAPlaceOn_ComeOutWhereTheyWereSet(int first, int end)
    {
        var column = new Column();
        for (int i = 0; i < end; i++) column.Set(i, i < first ? double.NaN : i);
        double[] all = column.ToArray(end + 7, always: true);
        Assert.Equal(end + 7, all.Length);
        Assert.All(Enumerable.Range(0, all.Length), i => Assert.Equal(i >= first && i < end ? i : double.NaN, all[i]));
        Assert.Equal(first < end, column.Used);
    }

    // Closed form.
    [Fact]
    public void Set_LastValueAgain_ReplacesIt()
    {
        var column = new Column();
        for (int i = 0; i <= 32_768; i += 2)
        {
            column.Set(i, 1);
            column.Set(i, i);
        }

        column.Set(32_768, double.NaN);
        double[] all = column.ToArray(32_769, always: false);
        Assert.Equal([0, double.NaN, 2], all[..3]);
        Assert.Equal([32_766, double.NaN, double.NaN], all[^3..]);
    }

    // Closed form.
    [Fact]
    public void ToArray_NeverANumber_IsEmptyUnlessAsked()
    {
        var column = new Column();
        column.Set(0, double.NaN);
        Assert.Empty(column.ToArray(1, always: false));
        Assert.Equal([double.NaN], column.ToArray(1, always: true));
    }

    // Closed form: the places counted one by one.
    [Fact]
    public void Find_TextsOfAllLengths_GivesEveryPlaceInOrder()
    {
        var random = new Random(4);
        int[] places = [];
        for (int length = 0; length < 200; length++)
        {
            byte[] text = [.. Enumerable.Range(0, length).Select(_ => random.Next(3) == 0 ? (byte)',' : (byte)random.Next(256))];
            int count = ByteMarks.Find(text, (byte)',', ref places);
            Assert.Equal(Enumerable.Range(0, length).Where(i => text[i] == ','), places[..count]);
        }
    }
}
