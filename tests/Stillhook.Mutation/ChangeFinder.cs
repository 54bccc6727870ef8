using System.Globalization;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using Microsoft.CodeAnalysis.Text;

namespace Stillhook.Mutation;

/// <summary>Every small change a source file offers: operators, comparisons, conditions, numbers, pairs of functions, statements left out. Texts are left alone: their wording is no figure.</summary>
internal static class ChangeFinder
{
    private static readonly Dictionary<string, string[]> Operators = new()
    {
        ["+"] = ["-"], ["-"] = ["+"], ["*"] = ["/"], ["/"] = ["*"], ["%"] = ["*"],
        ["<"] = ["<=", ">"], ["<="] = ["<", ">="], [">"] = [">=", "<"], [">="] = [">", "<="],
        ["=="] = ["!="], ["!="] = ["=="], ["&&"] = ["||"], ["||"] = ["&&"],
        ["+="] = ["-="], ["-="] = ["+="], ["*="] = ["/="], ["/="] = ["*="], ["++"] = ["--"], ["--"] = ["++"],
        ["and"] = ["or"], ["or"] = ["and"],
    };

    private static readonly Dictionary<string, string> Functions = Pairs("Max Min", "MaxBy MinBy", "Sin Cos", "Floor Ceiling", "First Last", "FirstOrDefault LastOrDefault", "Any All", "OrderBy OrderByDescending", "Take Skip", "TakeWhile SkipWhile");

    /// <summary>The changes of one file, in the order of its text.</summary>
    /// <param name="tree">The file's syntax, with its path.</param>
    public static IEnumerable<Change> Of(SyntaxTree tree)
    {
        SourceText text = tree.GetText();
        // A parameter's default is compiled into its callers, which stay as they are.
        foreach (SyntaxNode node in tree.GetRoot().DescendantNodes(n => n is not (AttributeListSyntax or InterpolatedStringExpressionSyntax or ParameterSyntax)))
        {
            foreach ((TextSpan span, string became) in Replacements(node))
            {
                TextSpan around = (node.AncestorsAndSelf().FirstOrDefault(n => n is StatementSyntax and not BlockSyntax or MemberDeclarationSyntax or SwitchExpressionArmSyntax) ?? node).Span;
                TextSpan line = text.Lines.GetLineFromPosition(span.Start).Span;
                around = around.Length > 160 && line.Contains(span) ? line : around;
                string was = text.ToString(around);
                string now = was[..(span.Start - around.Start)] + became + was[Math.Min(span.End - around.Start, was.Length)..];
                yield return new Change(tree.FilePath, span, became, text.Lines.GetLinePosition(span.Start).Line + 1, was, now);
            }
        }
    }

    private static IEnumerable<(TextSpan Span, string Became)> Replacements(SyntaxNode node) => node switch
    {
        BinaryExpressionSyntax b => Operator(b.OperatorToken),
        RelationalPatternSyntax r => Operator(r.OperatorToken),
        BinaryPatternSyntax b => Operator(b.OperatorToken),
        AssignmentExpressionSyntax a => Operator(a.OperatorToken),
        PostfixUnaryExpressionSyntax p => Operator(p.OperatorToken),
        PrefixUnaryExpressionSyntax p when p.IsKind(SyntaxKind.LogicalNotExpression) || p.IsKind(SyntaxKind.UnaryMinusExpression) => [(p.OperatorToken.Span, "")],
        PrefixUnaryExpressionSyntax p => Operator(p.OperatorToken),
        ConditionalExpressionSyntax c => [(c.Condition.Span, $"!({c.Condition})")],
        IfStatementSyntax i => [(i.Condition.Span, $"!({i.Condition})")],
        LiteralExpressionSyntax l => Literal(l.Token),
        ExpressionStatementSyntax or ThrowStatementSyntax => [(node.Span, ";")],
        MemberAccessExpressionSyntax { Name: IdentifierNameSyntax name } when Functions.TryGetValue(name.Identifier.Text, out string? other) => [(name.Span, other)],
        _ => [],
    };

    private static IEnumerable<(TextSpan, string)> Operator(SyntaxToken token) => Operators.GetValueOrDefault(token.Text, []).Select(o => (token.Span, o));

    private static IEnumerable<(TextSpan, string)> Literal(SyntaxToken token) => token.Value switch
    {
        true => [(token.Span, "false")],
        false => [(token.Span, "true")],
        int n when token.Text.All(c => char.IsAsciiDigit(c) || c == '_') && n < int.MaxValue => [(token.Span, (n + 1).ToString(CultureInfo.InvariantCulture))],
        double n => [(token.Span, n == 0 ? "1.0" : $"({(n * 1.1).ToString("R", CultureInfo.InvariantCulture)})")],
        _ => [],
    };

    private static Dictionary<string, string> Pairs(params string[] pairs) =>
        pairs.Select(p => p.Split(' ')).SelectMany(p => new[] { (p[0], p[1]), (p[1], p[0]) }).ToDictionary();
}
