using System.Collections.Concurrent;
using System.ComponentModel;
using System.Reflection;
using System.Runtime.CompilerServices;
using System.Text.Json;
using Stillhook.Planning;

namespace Stillhook.Files.Jobs;

/// <summary>Kinds of value a member holds.</summary>
internal enum ShapeKind
{
    Text,
    Flag,
    Whole,
    Number,
    Word,
    Date,
    Clock,
    Instant,
    Quantity,
    List,
    Group,
}

/// <summary>How a value is written, worked out from its type.</summary>
internal sealed class ValueShape
{
    private ValueShape(Type type)
    {
        MayBeNull = Nullable.GetUnderlyingType(type) is not null;
        Type = Nullable.GetUnderlyingType(type) ?? type;
        Kind = KindOf(Type);
        if (Kind == ShapeKind.List)
            Item = new(Type.GetGenericArguments()[0]);
        Units = UnitForm.Of(Type) ?? Item?.Units ?? [];
        if (Kind == ShapeKind.Word)
            Words = [.. Enum.GetNames(Type).Select(Written)];
    }

    public ShapeKind Kind { get; }

    /// <summary>The type without its question mark.</summary>
    public Type Type { get; }

    /// <summary>Whether null may stand among the items of a list.</summary>
    public bool MayBeNull { get; }

    /// <summary>What a list holds.</summary>
    public ValueShape? Item { get; }

    /// <summary>The units of a quantity, or of the quantities in a list; else none.</summary>
    public IReadOnlyList<UnitForm> Units { get; } = [];

    /// <summary>The words of a choice, in the order of its values.</summary>
    public IReadOnlyList<string> Words { get; } = [];

    /// <summary>The shape of a group, looked up late because groups may hold one another.</summary>
    public GroupShape Group => GroupShape.Of(Type);

    /// <summary>Whether it is written as a number.</summary>
    public bool IsNumber => Kind is ShapeKind.Number or ShapeKind.Whole or ShapeKind.Quantity;

    /// <summary>The innermost value of nested lists.</summary>
    public ValueShape Innermost => Item?.Innermost ?? this;

    public static ValueShape Of(PropertyInfo property) => new(property.PropertyType);

    /// <summary>A stand-in for a required value that is missing or spoilt; the file is unusable then.</summary>
    public object Blank() => Kind switch
    {
        ShapeKind.Text => "",
        ShapeKind.List => Array.CreateInstance(Item!.ElementType, 0),
        ShapeKind.Group => Group.Blank(),
        _ => Activator.CreateInstance(Type)!,
    };

    /// <summary>The type as an element of a list, with its question mark.</summary>
    public Type ElementType => MayBeNull ? typeof(Nullable<>).MakeGenericType(Type) : Type;

    /// <summary>A word of the program as the file writes it: LoadMaster as loadMaster; single letters stay.</summary>
    public static string Written(string name) => name.Length == 1 ? name : JsonNamingPolicy.CamelCase.ConvertName(name);

    private static ShapeKind KindOf(Type type)
    {
        if (UnitForm.Of(type) is not null)
            return ShapeKind.Quantity;
        if (type.IsEnum)
            return ShapeKind.Word;
        if (type.IsGenericType && type.GetGenericTypeDefinition() == typeof(IReadOnlyList<>))
            return ShapeKind.List;
        return Plain.TryGetValue(type, out ShapeKind kind) ? kind
            : type.IsClass && type.Namespace == typeof(LiftRequest).Namespace ? ShapeKind.Group
            : throw new NotSupportedException($"The job file has no way to write a {type}.");
    }

    private static readonly Dictionary<Type, ShapeKind> Plain = new()
    {
        [typeof(string)] = ShapeKind.Text,
        [typeof(bool)] = ShapeKind.Flag,
        [typeof(int)] = ShapeKind.Whole,
        [typeof(double)] = ShapeKind.Number,
        [typeof(DateOnly)] = ShapeKind.Date,
        [typeof(TimeOnly)] = ShapeKind.Clock,
        [typeof(DateTimeOffset)] = ShapeKind.Instant,
    };
}

/// <summary>A member of a group: its keys, whether it must be there, its range and what it means.</summary>
internal sealed class JobMember
{
    public JobMember(PropertyInfo property)
    {
        Property = property;
        Name = JsonNamingPolicy.CamelCase.ConvertName(property.Name);
        Value = ValueShape.Of(property);
        IsRequired = property.IsDefined(typeof(RequiredMemberAttribute));
        Description = property.GetCustomAttribute<DescriptionAttribute>()?.Description ?? "";
        Range = property.GetCustomAttribute<BetweenAttribute>() is { } between ? (between.Low, between.High) : null;
        Keys = Value.Units.Count == 0 ? [Name] : [.. Value.Units.Select(u => Name + u.Ending)];
    }

    public PropertyInfo Property { get; }

    /// <summary>Name without a unit, as paths use it.</summary>
    public string Name { get; }

    public ValueShape Value { get; }

    public bool IsRequired { get; }

    public string Description { get; }

    /// <summary>Range in the first unit.</summary>
    public (double Low, double High)? Range { get; }

    /// <summary>The keys it may be written under, one a unit.</summary>
    public IReadOnlyList<string> Keys { get; }

    /// <summary>The keys in words: massKg or massLb.</summary>
    public string KeysInWords => string.Join(" or ", Keys);

    /// <summary>The range in the unit it is written in.</summary>
    public (double Low, double High)? RangeIn(UnitForm? unit) => Range is { } range && unit is not null ? unit.Convert(range, Value.Units[0]) : Range;
}

/// <summary>The members of a group.</summary>
internal sealed class GroupShape
{
    private static readonly ConcurrentDictionary<Type, GroupShape> Known = new();
    private readonly Dictionary<string, (JobMember Member, UnitForm? Unit)> keys = new(StringComparer.Ordinal);

    private GroupShape(Type type)
    {
        Type = type;
        Members = [.. type.GetProperties().Where(p => p.SetMethod is not null).OrderBy(p => p.MetadataToken).Select(p => new JobMember(p))];
        foreach (JobMember member in Members)
            for (int i = 0; i < member.Keys.Count; i++)
                keys.Add(member.Keys[i], (member, member.Value.Units.Count == 0 ? null : member.Value.Units[i]));
    }

    public Type Type { get; }

    /// <summary>In the order of their declaration.</summary>
    public IReadOnlyList<JobMember> Members { get; }

    /// <summary>Every key that is understood here.</summary>
    public IEnumerable<string> Keys => keys.Keys;

    public static GroupShape Of(Type type) => Known.GetOrAdd(type, t => new(t));

    public bool TryFind(string key, out JobMember member, out UnitForm? unit)
    {
        bool found = keys.TryGetValue(key, out (JobMember Member, UnitForm? Unit) known);
        (member, unit) = known;
        return found;
    }

    /// <summary>An empty one, its required members filled with stand-ins.</summary>
    public object Blank()
    {
        object group = Activator.CreateInstance(Type)!;
        foreach (JobMember member in Members.Where(m => m.IsRequired))
            member.Property.SetValue(group, member.Value.Blank());
        return group;
    }

    /// <summary>This group and every group inside it, each once, outermost first, with the path where it is first met.</summary>
    public IEnumerable<(string Path, GroupShape Group)> Nested()
    {
        HashSet<Type> seen = [Type];
        Queue<(string Path, GroupShape Group)> waiting = new([("", this)]);
        while (waiting.TryDequeue(out (string Path, GroupShape Group) next))
        {
            yield return next;
            foreach (JobMember member in next.Group.Members.Where(m => m.Value.Innermost.Kind == ShapeKind.Group && seen.Add(m.Value.Innermost.Type)))
                waiting.Enqueue(((next.Path.Length == 0 ? "" : next.Path + ".") + member.Name + (member.Value.Kind == ShapeKind.List ? "[]" : ""), member.Value.Innermost.Group));
        }
    }
}
