using Stillhook.Files.Cards;

namespace Stillhook.Tests.Files.Cards;

public class NumberRunsTests
{
    // Closed form: written out by hand.
    [Theory]
    [InlineData("", "")]
    [InlineData("1", "1")]
    [InlineData("1 2", "1, 2")]
    [InlineData("1 2 3", "1 to 3")]
    [InlineData("2 3 4 9 11 12 13", "2 to 4, 9, 11 to 13")]
    [InlineData("L08 L09 L10 L12", "L08 to L10, L12")]
    [InlineData("A1 B2 C3", "A1, B2, C3")]
    [InlineData("3 2 1", "3, 2, 1")]
    [InlineData("a b c", "a, b, c")]
    public void Of_Numbers_DrawsRunsTogether(string numbers, string expected) => Assert.Equal(expected, NumberRuns.Of(numbers.Split(' ', StringSplitOptions.RemoveEmptyEntries)));
}
