namespace Stillhook.Reporting.Printing;

/// <summary>A report as it is read: parts one under the other, the same for every kind of file.</summary>
/// <param name="Title">Title.</param>
/// <param name="Subtitle">Line under it.</param>
/// <param name="DatedAt">Date of the file: of what it tells, not of when it was written, so that the same report gives the same bytes.</param>
/// <param name="Footer">Line at the foot of every page.</param>
/// <param name="Parts">Parts in order.</param>
public sealed record PrintedReport(string Title, string Subtitle, DateTimeOffset DatedAt, string Footer, IReadOnlyList<PrintedPart> Parts);

/// <summary>A part of a printed report.</summary>
public abstract record PrintedPart;

/// <summary>A heading.</summary>
/// <param name="Text">Its words.</param>
public sealed record PrintedHeading(string Text) : PrintedPart;

/// <summary>A paragraph.</summary>
/// <param name="Text">Its words.</param>
/// <param name="IsCaution">Set apart, because it must not be missed.</param>
public sealed record PrintedParagraph(string Text, bool IsCaution = false) : PrintedPart;

/// <summary>A list of sentences.</summary>
/// <param name="Items">One line each.</param>
public sealed record PrintedList(IReadOnlyList<string> Items) : PrintedPart;

/// <summary>Names with values.</summary>
/// <param name="Pairs">Pairs in order.</param>
public sealed record PrintedFacts(IReadOnlyList<(string Name, string Value)> Pairs) : PrintedPart;

/// <summary>A table. It may run over several pages; its headings are then repeated.</summary>
/// <param name="Caption">What it holds.</param>
/// <param name="Columns">Columns.</param>
/// <param name="Rows">Rows of as many cells.</param>
/// <param name="Sum">Last row, set apart; null for none.</param>
public sealed record PrintedTable(string Caption, IReadOnlyList<PrintedColumn> Columns, IReadOnlyList<IReadOnlyList<string>> Rows, IReadOnlyList<string>? Sum = null) : PrintedPart;

/// <summary>A column of a table.</summary>
/// <param name="Heading">Heading, with the unit where there is one.</param>
/// <param name="Share">Share of the width, relative to the others.</param>
/// <param name="ToTheRight">Numbers stand to the right.</param>
public readonly record struct PrintedColumn(string Heading, double Share, bool ToTheRight = false);
