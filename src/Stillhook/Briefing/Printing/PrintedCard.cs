using Stillhook.Reporting.Printing;

namespace Stillhook.Briefing.Printing;

/// <summary>A card as it is read: parts one under the other, the same for page and paper. A5, black on white.</summary>
/// <param name="Name">Name of its file without an ending.</param>
/// <param name="Title">What it is.</param>
/// <param name="Subtitle">Of which job, place and time.</param>
/// <param name="FirstLine">Caution that stands over everything.</param>
/// <param name="DatedAt">When it was issued; the file's own date.</param>
/// <param name="Footer">Line at the foot of every page.</param>
/// <param name="Parts">Parts in order.</param>
public sealed record PrintedCard(string Name, string Title, string Subtitle, string FirstLine, DateTimeOffset DatedAt, string Footer, IReadOnlyList<CardPart> Parts);

/// <summary>Size of words on a card.</summary>
public enum CardSize
{
    /// <summary>For the desk: what figures rest on.</summary>
    Small,

    /// <summary>For a hand that holds the card still.</summary>
    Normal,

    /// <summary>For a shaking cockpit: 14 points and more.</summary>
    Large,
}

/// <summary>A part of a card.</summary>
public abstract record CardPart;

/// <summary>A heading.</summary>
/// <param name="Text">Its words.</param>
public sealed record CardHeading(string Text) : CardPart;

/// <summary>A paragraph.</summary>
/// <param name="Text">Its words.</param>
/// <param name="Size">How large.</param>
/// <param name="Strong">In heavy letters.</param>
/// <param name="Boxed">Set apart in a frame, because it must not be missed.</param>
public sealed record CardText(string Text, CardSize Size = CardSize.Normal, bool Strong = false, bool Boxed = false) : CardPart;

/// <summary>A list of sentences.</summary>
/// <param name="Items">One each.</param>
/// <param name="Size">How large.</param>
/// <param name="ToTick">With a box to tick before each.</param>
public sealed record CardList(IReadOnlyList<string> Items, CardSize Size = CardSize.Normal, bool ToTick = false) : CardPart;

/// <summary>Names with values.</summary>
/// <param name="Pairs">Pairs in order.</param>
/// <param name="StrongNames">The names stand in heavy letters instead of the values: for words with what they mean.</param>
public sealed record CardFacts(IReadOnlyList<(string Name, string Value)> Pairs, bool StrongNames = false) : CardPart;

/// <summary>Figures side by side in frames, each large with a word over and a line under it.</summary>
/// <param name="Figures">Figures from left to right.</param>
public sealed record CardFigures(IReadOnlyList<CardFigure> Figures) : CardPart;

/// <summary>A large figure.</summary>
/// <param name="Label">What it is.</param>
/// <param name="Value">The figure with its unit.</param>
/// <param name="Under">What belongs to it; may be empty.</param>
/// <param name="More">A second line under it in smaller letters; may be empty.</param>
public sealed record CardFigure(string Label, string Value, string Under = "", string More = "");

/// <summary>A table. It may run over several pages; its headings are then repeated.</summary>
/// <param name="Caption">What it holds, for those who don't see it; printed only when asked.</param>
/// <param name="Columns">Columns.</param>
/// <param name="Rows">Rows.</param>
/// <param name="Size">How large its cells are.</param>
public sealed record CardTable(string Caption, IReadOnlyList<CardColumn> Columns, IReadOnlyList<CardRow> Rows, CardSize Size = CardSize.Normal) : CardPart;

/// <summary>A column of a card's table.</summary>
/// <param name="Heading">Heading, with the unit where there is one.</param>
/// <param name="Share">Share of the width, relative to the others.</param>
/// <param name="ToTheRight">Numbers stand to the right.</param>
/// <param name="Strong">In heavy letters.</param>
public readonly record struct CardColumn(string Heading, double Share, bool ToTheRight = false, bool Strong = false);

/// <summary>A row: its cells, or one text over the whole width.</summary>
/// <param name="Cells">As many as columns; a single one spans the row.</param>
public sealed record CardRow(params IReadOnlyList<string> Cells);

/// <summary>A picture.</summary>
/// <param name="Picture">The picture.</param>
public sealed record CardPicture(PrintedPicture Picture) : CardPart;

/// <summary>A chain of parts, from the top down, the weakest marked.</summary>
/// <param name="Title">What hangs there.</param>
/// <param name="Links">Parts from the top down.</param>
public sealed record CardChain(string Title, IReadOnlyList<CardLink> Links) : CardPart;

/// <summary>How a link of a chain is drawn.</summary>
public enum LinkSign
{
    /// <summary>A hook.</summary>
    Hook,

    /// <summary>A ring, shackle or swivel.</summary>
    Ring,

    /// <summary>A line.</summary>
    Line,

    /// <summary>A sling, net or bucket.</summary>
    Sling,

    /// <summary>The load.</summary>
    Load,
}

/// <summary>A link of a chain.</summary>
/// <param name="Sign">How it is drawn.</param>
/// <param name="Name">Its name.</param>
/// <param name="Figures">What it carries and may carry.</param>
/// <param name="Remark">What is wrong or to be confirmed; empty when nothing is.</param>
/// <param name="Weakest">Reaches its limit first.</param>
public sealed record CardLink(LinkSign Sign, string Name, string Figures, string Remark = "", bool Weakest = false);

/// <summary>Lines to write on.</summary>
/// <param name="Label">What is written there.</param>
/// <param name="Lines">How many.</param>
public sealed record CardBlank(string Label, int Lines = 1) : CardPart;

/// <summary>Makes PDFs of cards. A floor above holds the package that can.</summary>
public interface ICardPdfMaker
{
    /// <summary>The file, A5. The same card gives the same bytes.</summary>
    byte[] Make(PrintedCard card);
}
